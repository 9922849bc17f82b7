//! Static files, built into the program and served under an address that holds their content's hash.

use axum::extract::Path;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use rust_embed::RustEmbed;
use std::borrow::Cow;
use std::fmt::Write as _;
use std::sync::LazyLock;

#[derive(RustEmbed)]
#[folder = "static/"]
struct Files;

/// One file as served.
struct Served {
    /// Name in the folder, such as "style.css".
    name: Cow<'static, str>,
    /// First twelve hex digits of the content's SHA-256.
    hash: String,
    bytes: Cow<'static, [u8]>,
}

static SERVED: LazyLock<Vec<Served>> = LazyLock::new(|| {
    Files::iter()
        .filter_map(|name| {
            let file = Files::get(&name)?;
            let mut hash = String::with_capacity(12);
            for byte in &file.metadata.sha256_hash()[..6] {
                // Writing to a String cannot fail.
                let _ = write!(hash, "{byte:02x}");
            }
            Some(Served {
                name,
                hash,
                bytes: file.data,
            })
        })
        .collect()
});

/// The address of a static file, such as `/static/style.1a2b3c4d5e6f.css`. A name that is not in
/// the folder gives an address that answers 404.
pub fn address(name: &str) -> String {
    let Some(file) = SERVED.iter().find(|file| file.name == name) else {
        return format!("/static/{name}");
    };
    match name.rsplit_once('.') {
        Some((stem, ending)) => format!("/static/{stem}.{}.{ending}", file.hash),
        None => format!("/static/{name}.{}", file.hash),
    }
}

/// The text of the style sheet, for a page that must stand alone in one file.
pub fn style_sheet() -> String {
    SERVED
        .iter()
        .find(|file| file.name == "style.css")
        .map(|file| String::from_utf8_lossy(&file.bytes).into_owned())
        .unwrap_or_default()
}

fn content_type(name: &str) -> &'static str {
    match name.rsplit_once('.').map(|(_, ending)| ending) {
        Some("css") => "text/css; charset=utf-8",
        Some("js") => "text/javascript; charset=utf-8",
        Some("svg") => "image/svg+xml",
        _ => "application/octet-stream",
    }
}

/// Answers `/static/{file}`: the file of exactly that hash, to be kept for a year, or 404.
pub async fn serve(Path(wanted): Path<String>) -> Response {
    let found = SERVED
        .iter()
        .find(|file| address(&file.name).rsplit('/').next() == Some(wanted.as_str()));
    match found {
        Some(file) => (
            [
                (
                    header::CONTENT_TYPE,
                    HeaderValue::from_static(content_type(&file.name)),
                ),
                (
                    header::CACHE_CONTROL,
                    HeaderValue::from_static("public, max-age=31536000, immutable"),
                ),
            ],
            file.bytes.clone(),
        )
            .into_response(),
        None => StatusCode::NOT_FOUND.into_response(),
    }
}

#[cfg(test)]
mod tests {
    use super::{SERVED, address, style_sheet};

    #[test]
    fn the_address_changes_with_the_content_and_keeps_the_ending() {
        let css = address("style.css");
        assert!(
            css.starts_with("/static/style.") && css.ends_with(".css"),
            "{css}"
        );
        assert_eq!(css.len(), "/static/style.css".len() + 13);
        assert_ne!(address("stillroom.js"), css);
        assert_eq!(address("absent.css"), "/static/absent.css");
    }

    #[test]
    fn the_style_sheet_fetches_nothing_and_stays_small() {
        let css = style_sheet();
        assert!(css.len() < 25_000, "{} bytes", css.len());
        assert!(!css.contains("http") && !css.contains("@import") && !css.contains("@font-face"));
        let served: usize = SERVED.iter().map(|file| file.bytes.len()).sum();
        assert!(served < 40_000, "all static files together: {served} bytes");
    }
}
