//! Reads a finished file as a program would that has never heard of us: text page by page, fonts, what is inside.

use hayro_interpret::font::Glyph;
use hayro_interpret::hayro_cmap::BfString;
use hayro_interpret::{
    BlendMode, ClipPath, Context, Device, GlyphDrawMode, Image, InterpreterCache,
    InterpreterSettings, Paint, PathDrawMode, SoftMask, interpret_page,
};
use hayro_syntax::Pdf;
use hayro_syntax::object::{Dict, Name, Object, Stream};
use kurbo::{Affine, BezPath, Point, Rect};

pub fn open(bytes: &[u8]) -> Pdf {
    Pdf::new(bytes.to_vec()).expect("a PDF that another library can open")
}

/// The text of each page, as its letters say which characters they are; a new line where the pen goes elsewhere.
pub fn pages(bytes: &[u8]) -> Vec<String> {
    let pdf = open(bytes);
    let cache = InterpreterCache::new();
    let pages = pdf.pages();
    pages
        .iter()
        .map(|page| {
            let nowhere = Rect::new(0.0, 0.0, 1.0, 1.0);
            let settings = InterpreterSettings::default();
            let mut context = Context::new(Affine::IDENTITY, nowhere, &cache, pdf.xref(), settings);
            let mut reader = Reader::default();
            interpret_page(page, &mut context, &mut reader);
            reader.text
        })
        .collect()
}

/// All text of the file, blanks run together.
pub fn text(bytes: &[u8]) -> String {
    let all = pages(bytes).join(" ");
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A text with no blanks at all: where lines are broken does not matter then.
pub fn run_on(text: &str) -> String {
    text.split_whitespace().collect()
}

/// Text of one page.
pub fn page(bytes: &[u8], number: usize) -> String {
    pages(bytes).swap_remove(number - 1)
}

#[derive(Default)]
struct Reader {
    text: String,
    at: Point,
}

impl Device<'_> for Reader {
    fn draw_glyph(
        &mut self,
        glyph: &Glyph<'_>,
        to: Affine,
        own: Affine,
        _: &Paint<'_>,
        _: &GlyphDrawMode,
    ) {
        let at = to * own * Point::ORIGIN;
        // Far to the left or to another height: another line, unless it is only raised like part of a fraction.
        if at.x < self.at.x - 1.0 || (at.y - self.at.y).abs() > 6.0 {
            self.text.push('\n');
        }
        self.at = at;
        match glyph.as_unicode() {
            Some(BfString::Char(c)) => self.text.push(c),
            Some(BfString::String(s)) => self.text.push_str(&s),
            None => panic!("a letter that does not say what it is, after {}", self.text),
        }
    }

    fn set_soft_mask(&mut self, _: Option<SoftMask<'_>>) {}
    fn draw_path(&mut self, _: &BezPath, _: Affine, _: &Paint<'_>, _: &PathDrawMode) {}
    fn push_clip_path(&mut self, _: &ClipPath) {}
    fn push_transparency_group(&mut self, _: f32, _: Option<SoftMask<'_>>, _: BlendMode) {}
    fn pop_clip_path(&mut self) {}
    fn pop_transparency_group(&mut self) {}
    fn draw_image(&mut self, _: Image<'_, '_>, _: Affine) {}
    fn set_blend_mode(&mut self, _: BlendMode) {}
}

/// Calls `look` with every dictionary of the file.
pub fn each(pdf: &Pdf, mut look: impl FnMut(&Dict<'_>)) {
    for object in pdf.objects() {
        match object {
            Object::Dict(dict) => look(&dict),
            Object::Stream(stream) => look(stream.dict()),
            _ => {}
        }
    }
}

/// Every font: its name, and whether its letters are inside the file.
pub fn fonts(bytes: &[u8]) -> Vec<(String, bool)> {
    let mut all = Vec::new();
    each(&open(bytes), |dict| {
        if dict.get::<Name<'_>>("Type").as_deref() != Some(&b"FontDescriptor"[..]) {
            return;
        }
        let name = dict.get::<Name<'_>>("FontName").expect("a name");
        let inside = ["FontFile", "FontFile2", "FontFile3"]
            .iter()
            .any(|key| dict.contains_key(key));
        all.push((String::from_utf8_lossy(&name).into_owned(), inside));
    });
    all
}

/// What stands in the streams of the file, opened.
pub fn streams(bytes: &[u8]) -> Vec<Vec<u8>> {
    let pdf = open(bytes);
    let of = |object| match object {
        Object::Stream(stream) => Stream::decoded(&stream).ok().map(|data| data.to_vec()),
        _ => None,
    };
    pdf.objects().into_iter().filter_map(of).collect()
}
