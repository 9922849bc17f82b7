//! The server: loopback only, layers that every answer passes, a clear word when a port is taken.

use crate::page::message;
use crate::routes;
use crate::state::{Clock, Site};
use crate::{frame::Frame, guard};
use app::App;
use axum::Router;
use axum::body::Body;
use axum::http::{HeaderName, HeaderValue, Request, StatusCode, header};
use axum::middleware::{self, Next};
use axum::response::{IntoResponse, Response};
use std::any::Any;
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use tower_http::catch_panic::CatchPanicLayer;
use tower_http::compression::CompressionLayer;
use tower_http::csrf::CsrfLayer;
use tower_http::limit::RequestBodyLimitLayer;

/// No form of the program is longer than this, the house with all its rows included.
const LONGEST_BODY: usize = 256 * 1024;

/// Nothing from elsewhere, nothing inline, no frame around it, forms only to ourselves.
const CONTENT_POLICY: &str = "default-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'";

/// The whole site with its layers, ready to be served or tested without a socket.
pub fn router(site: Site) -> Router {
    routes::table()
        .fallback(|| async {
            plain_page(
                StatusCode::NOT_FOUND,
                "There is no such page.",
                "Go on from the Counter.",
            )
        })
        .with_state(site)
        .layer(CompressionLayer::new())
        .layer(CsrfLayer::new().with_rejection_response(refuse_foreign))
        .layer(RequestBodyLimitLayer::new(LONGEST_BODY))
        .layer(CatchPanicLayer::custom(stumbled))
        .layer(middleware::from_fn(guard::loopback_names_only))
        .layer(middleware::from_fn(headers))
}

async fn headers(request: Request<Body>, next: Next) -> Response {
    let mut response = next.run(request).await;
    // The length guard answers in bare words; a person gets a page.
    if response.status() == StatusCode::PAYLOAD_TOO_LARGE {
        response = plain_page(
            StatusCode::PAYLOAD_TOO_LARGE,
            "What was sent is longer than any form of this program.",
            "Go back and send less at a time.",
        );
    }
    let headers = response.headers_mut();
    headers.insert(
        header::CONTENT_SECURITY_POLICY,
        HeaderValue::from_static(CONTENT_POLICY),
    );
    headers.insert(
        header::REFERRER_POLICY,
        HeaderValue::from_static("same-origin"),
    );
    headers.insert(
        header::X_CONTENT_TYPE_OPTIONS,
        HeaderValue::from_static("nosniff"),
    );
    headers.insert(
        HeaderName::from_static("cross-origin-opener-policy"),
        HeaderValue::from_static("same-origin"),
    );
    // Pages change with every entry; only static files may be kept, and they say so themselves.
    headers
        .entry(header::CACHE_CONTROL)
        .or_insert(HeaderValue::from_static("no-store"));
    response
}

fn refuse_foreign(_: tower_http::csrf::ProtectionError) -> Response {
    plain_page(
        StatusCode::FORBIDDEN,
        "This form was sent from another site, so nothing was written.",
        "Open the page here and send it again.",
    )
}

fn stumbled(_: Box<dyn Any + Send + 'static>) -> Response {
    plain_page(
        StatusCode::INTERNAL_SERVER_ERROR,
        "The program stumbled over this page.",
        "Nothing was written. Go back and try once more; the fault is in the program, not in what you typed.",
    )
}

/// A page that needs no store: for what goes wrong before one could be asked.
pub(crate) fn plain_page(status: StatusCode, cause: &str, action: &str) -> Response {
    (status, message::draw(&Frame::default(), cause, action)).into_response()
}

/// Serves the pages until the program is told to stop (ctrl-C). Builds its own runtime and blocks.
///
/// Port 0 takes any free port; `on_listening` is told the address. No argument binds anything but
/// this machine's own loopback address.
///
/// # Errors
/// The port is taken or forbidden; or the runtime could not be set up.
pub fn serve(
    app: Arc<App>,
    clock: Clock,
    port: u16,
    on_listening: impl FnOnce(SocketAddr),
) -> io::Result<()> {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(2)
        .enable_all()
        .build()?;
    runtime.block_on(async move {
        let wanted = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
        let listener = tokio::net::TcpListener::bind(wanted)
            .await
            .map_err(|error| name_the_port(&error, port))?;
        on_listening(listener.local_addr()?);
        let stop = async {
            // Where the signal cannot be had, the program is stopped from outside.
            if tokio::signal::ctrl_c().await.is_err() {
                std::future::pending::<()>().await;
            }
        };
        axum::serve(listener, router(Site::new(app, clock)))
            .with_graceful_shutdown(stop)
            .await
    })
}

fn name_the_port(error: &io::Error, port: u16) -> io::Error {
    let words = match error.kind() {
        io::ErrorKind::AddrInUse => format!("port {port} is taken, perhaps by another Stillroom"),
        io::ErrorKind::PermissionDenied => {
            format!("port {port} may not be opened by this user; ports above 1023 may")
        }
        _ => error.to_string(),
    };
    io::Error::new(error.kind(), words)
}

#[cfg(test)]
mod tests {
    use super::name_the_port;
    use std::io::{Error, ErrorKind};

    #[test]
    fn a_taken_port_is_named() {
        let said = name_the_port(&Error::from(ErrorKind::AddrInUse), 8420).to_string();
        assert!(said.contains("8420") && said.contains("taken"), "{said}");
    }
}
