//! The page that is pinned up for phones: how to take the shop's certificate over, and the fingerprint to compare.

use paper::{Block, Fact, Form, FormPart};
use store::Keys;

use super::about;
use crate::network::fingerprint;
use crate::verb::serve::{DESK_AT, authority};
use crate::words::network as say;
use crate::{Context, Failure};

pub(super) fn paper(context: &mut Context) -> Result<Form, Failure> {
    let authority = authority(context)?;
    let at = Keys::beside(&context.path()?)?.setting(DESK_AT)?;
    let at = at.as_deref();
    let about = about(context, "PHONES", say::PHONES.into())?;
    let part = FormPart::on_one_page;
    let mut fetch = vec![Block::Points {
        all: say::fetch(at),
    }];
    if let Some(at) = at {
        fetch.push(Block::Code {
            svg: paper::square::svg(&format!("http://{at}{}", say::CERTIFICATE_PATH))?,
            told: say::code_told(at),
            wide: 38,
        });
    }
    let shown = fingerprint(authority.der());
    let pairs: Vec<&str> = shown.split(' ').collect();
    let rows = pairs.chunks(8).map(|row| row.join(" "));
    let compare = rows.enumerate().map(|(at, row)| {
        let word = if at == 0 { say::FINGERPRINT } else { "" };
        Fact::of(word, row)
    });
    let mut install = part(
        say::INSTALL,
        vec![Block::Points {
            all: say::STEPS.map(String::from).to_vec(),
        }],
    );
    install.note = Some(say::MENUS.into());
    Ok(Form {
        close: false,
        about,
        over: say::PHONES_OVER.into(),
        title: say::PHONES.into(),
        under: None,
        shout: None,
        facts: at
            .map(|at| Fact::of(say::ADDRESS, format!("https://{at}/")))
            .into_iter()
            .collect(),
        governs: say::PHONES_GOVERNS.into(),
        careful: say::CAREFUL.into(),
        cautions: say::CAUTIONS.map(String::from).to_vec(),
        parts: vec![
            part(say::FETCH, fetch),
            part(
                say::COMPARE,
                vec![Block::Facts {
                    all: compare.collect(),
                }],
            ),
            install,
            part(say::THEN, vec![Block::Points { all: say::then(at) }]),
        ],
    })
}
