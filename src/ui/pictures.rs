//! What the tests of single parts of a screen render, kept to be looked at.

use std::path::Path;

/// Keeps a part of a screen in `artefacts/html`, in the app's style. Nothing is kept where the folder cannot
/// be written.
pub fn keep_picture(name: &str, html: &str) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("artefacts/html");
    if std::fs::create_dir_all(&folder).is_err() {
        return;
    }
    let style = concat!(
        include_str!("../../assets/theme.css"),
        include_str!("../../assets/app.css"),
        include_str!("../../assets/drawing.css")
    );
    let page = format!(
        "<meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><style>{style}</style>\
         <div class=\"app\">{html}</div>"
    );
    let _ = std::fs::write(folder.join(format!("{name}.html")), page);
}
