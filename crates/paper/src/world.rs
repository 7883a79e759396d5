//! All that the typesetter may see: our letters, our templates, and the data of one page. It is given no
//! other file, no package, no network, and no day.

use std::sync::OnceLock;

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use crate::PaperError;

/// The letters, in the order in which they are looked for. Their licences lie beside them.
const LETTERS: [&[u8]; 6] = [
    include_bytes!("../fonts/cabin-400.ttf"),
    include_bytes!("../fonts/cabin-400-italic.ttf"),
    include_bytes!("../fonts/cabin-600.ttf"),
    include_bytes!("../fonts/fira-mono-400.ttf"),
    include_bytes!("../fonts/fira-mono-500.ttf"),
    include_bytes!("../fonts/fira-math.otf"),
];

/// The templates by the names they call each other.
const TEMPLATES: [(&str, &str); 8] = [
    ("base.typ", include_str!("../template/base.typ")),
    ("formula.typ", include_str!("../template/formula.typ")),
    ("worked.typ", include_str!("../template/worked.typ")),
    ("job.typ", include_str!("../template/job.typ")),
    ("lathe.typ", include_str!("../template/lathe.typ")),
    ("plate.typ", include_str!("../template/plate.typ")),
    ("tool-tag.typ", include_str!("../template/tool-tag.typ")),
    ("form.typ", include_str!("../template/form.typ")),
];

/// What a template reads.
const PAGE: &str = "page.json";
/// What is put inside the finished file for programs.
const RECORD: &str = "record.json";

/// What is the same for every page, made when the first one is printed.
struct Shop {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    templates: Vec<(&'static str, Source)>,
    page: FileId,
    record: FileId,
}

fn shop() -> Result<&'static Shop, PaperError> {
    static SHOP: OnceLock<Result<Shop, PaperError>> = OnceLock::new();
    SHOP.get_or_init(open).as_ref().map_err(Clone::clone)
}

fn open() -> Result<Shop, PaperError> {
    let fonts: Vec<Font> = LETTERS
        .into_iter()
        .filter_map(|bytes| Font::new(Bytes::new(bytes), 0))
        .collect();
    if fonts.len() != LETTERS.len() {
        return Err(PaperError::Set("a font does not read".into()));
    }
    let mut templates = Vec::new();
    for (name, text) in TEMPLATES {
        templates.push((name, Source::new(id(name)?, text.to_owned())));
    }
    Ok(Shop {
        library: LazyHash::new(Library::builder().build()),
        book: LazyHash::new(FontBook::from_fonts(&fonts)),
        fonts,
        templates,
        page: id(PAGE)?,
        record: id(RECORD)?,
    })
}

fn id(name: &str) -> Result<FileId, PaperError> {
    let path = VirtualPath::new(name).map_err(|_| PaperError::Set(format!("no path {name}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

/// Whether our letters have this character.
///
/// # Errors
/// If a font of ours does not read.
pub fn has_letters() -> Result<impl Fn(char) -> bool, PaperError> {
    let shop = shop()?;
    Ok(|c: char| {
        let mut infos = shop.fonts.iter().map(Font::info);
        infos.any(|info| info.coverage.contains(c as u32))
    })
}

/// The world of one page.
pub struct Desk {
    shop: &'static Shop,
    main: FileId,
    page: Bytes,
    record: Bytes,
}

impl Desk {
    /// A template with its data: what it reads, and what is put inside the finished file.
    ///
    /// # Errors
    /// If a font or template of ours does not read.
    pub fn of(template: &str, page: String, record: String) -> Result<Desk, PaperError> {
        let shop = shop()?;
        let known = shop.templates.iter().find(|(name, _)| *name == template);
        let (_, source) =
            known.ok_or_else(|| PaperError::Set(format!("there is no template {template}")))?;
        Ok(Desk {
            shop,
            main: source.id(),
            page: Bytes::from_string(page),
            record: Bytes::from_string(record),
        })
    }
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &self.shop.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.shop.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let known = self.shop.templates.iter().find(|(_, s)| s.id() == id);
        known
            .map(|(_, source)| source.clone())
            .ok_or(FileError::AccessDenied)
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        match id {
            _ if id == self.shop.page => Ok(self.page.clone()),
            _ if id == self.shop.record => Ok(self.record.clone()),
            _ => Err(FileError::AccessDenied),
        }
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.shop.fonts.get(index).cloned()
    }

    /// A page is dated by its data and never by the machine.
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
