//! The whole site over a real file: the invented household, or an empty one.

use app::App;
use app::request::Now;
use axum::Router;
use axum::body::Body;
use axum::http::{HeaderMap, Request, StatusCode, header};
use std::sync::Arc;
use tower::ServiceExt as _;
use web::Site;

/// An answer, read to its end.
pub struct Answer {
    pub status: StatusCode,
    pub headers: HeaderMap,
    pub body: String,
}

impl Answer {
    /// Where a redirect leads.
    pub fn location(&self) -> &str {
        self.headers
            .get(header::LOCATION)
            .and_then(|value| value.to_str().ok())
            .unwrap_or_default()
    }

    /// What the page says went wrong, for a failing test's message.
    pub fn words(&self) -> String {
        self.body
            .split("role=\"alert\">")
            .nth(1)
            .unwrap_or("no alert")
            .split("</div>")
            .next()
            .unwrap_or_default()
            .to_owned()
    }

    pub fn header(&self, name: &str) -> &str {
        self.headers
            .get(name)
            .and_then(|value| value.to_str().ok())
            .unwrap_or_default()
    }
}

/// A site and the folder its file lives in.
pub struct Household {
    pub app: Arc<App>,
    router: Router,
    _folder: tempfile::TempDir,
}

/// The moment all tests stand at.
pub fn now() -> Now {
    Now {
        date: jiff::civil::date(2026, 8, 27),
        minute: 450,
        at: "2026-08-27T07:30:00".into(),
        who: "tests".into(),
    }
}

impl Household {
    /// A household that has said nothing yet.
    pub fn empty() -> Self {
        let folder = tempfile::tempdir().expect("a folder for the test");
        let app = Arc::new(App::open_folder(folder.path()).expect("an empty file"));
        let router = web::router(Site::new(Arc::clone(&app), Arc::new(now)));
        Self {
            app,
            router,
            _folder: folder,
        }
    }

    /// The invented household on its morning.
    pub fn demo() -> Self {
        let household = Self::empty();
        household.app.play_demo().expect("the demonstration plays");
        household
    }

    /// Sends a request as a browser on this machine would.
    pub async fn send(&self, request: Request<Body>) -> Answer {
        let response = self
            .router
            .clone()
            .oneshot(request)
            .await
            .expect("the router always answers");
        let (parts, body) = response.into_parts();
        let bytes = axum::body::to_bytes(body, usize::MAX)
            .await
            .expect("the body can be read");
        Answer {
            status: parts.status,
            headers: parts.headers,
            body: String::from_utf8_lossy(&bytes).into_owned(),
        }
    }

    /// Opens an address.
    pub async fn get(&self, address: &str) -> Answer {
        self.send(
            Request::get(address)
                .header(header::HOST, "localhost:8420")
                .body(Body::empty())
                .expect("a request"),
        )
        .await
    }

    /// Sends a form; the pairs are percent-encoded here.
    pub async fn post(&self, address: &str, fields: &[(&str, &str)]) -> Answer {
        let body = fields
            .iter()
            .map(|(name, value)| format!("{}={}", encode(name), encode(value)))
            .collect::<Vec<_>>()
            .join("&");
        let request = Request::post(address)
            .header(header::HOST, "localhost:8420")
            .header(header::ORIGIN, "http://localhost:8420")
            .header("sec-fetch-site", "same-origin")
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded")
            .body(Body::from(body))
            .expect("a request");
        self.send(request).await
    }
}

fn encode(text: &str) -> String {
    text.bytes()
        .map(|byte| {
            if byte.is_ascii_alphanumeric() || b"-._".contains(&byte) {
                (byte as char).to_string()
            } else {
                format!("%{byte:02X}")
            }
        })
        .collect()
}
