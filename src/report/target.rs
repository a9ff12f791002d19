//! The printed target as a page of its own.

use super::draw::escape;
use crate::photo::{Captions, Sheet, target_svg};
use crate::text::{TextError, Texts};

/// The page: the sheet alone, without margins of its own, so that it prints at its actual size.
///
/// # Errors
/// [`TextError`] where the texts cannot be read.
pub fn target_page(sheet: Sheet) -> Result<String, TextError> {
    let texts = Texts::english()?;
    let captions = Captions {
        title: texts.text("ui-target-title"),
        check: texts.text("ui-target-check"),
        how: texts.text("ui-target-how"),
    };
    let size = match sheet {
        Sheet::A4 => "A4",
        Sheet::Letter => "letter",
    };
    Ok(format!(
        "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>{}</title><style>\
         @page {{ size: {size}; margin: 0 }} body {{ margin: 0 }} svg {{ display: block }}</style></head><body>{}</body></html>\n",
        escape(&captions.title),
        target_svg(sheet, &captions),
    ))
}
