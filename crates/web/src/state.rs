//! What the handlers share: the app, the clock, tokens, and the words of what was just done.

use crate::form::{Fields, Filled};
use crate::frame::{Frame, Tokens};
use app::App;
use app::error::AppError;
use app::request::Now;
use std::collections::VecDeque;
use std::sync::{Arc, Mutex, PoisonError};

/// Where the pages get the time from; the outermost layer decides.
pub type Clock = Arc<dyn Fn() -> Now + Send + Sync>;

/// Messages kept for the page after a form; older ones are forgotten.
const KEPT: usize = 64;

/// Shared by all handlers.
#[derive(Clone)]
pub struct Site {
    /// The household's actions and views.
    pub app: Arc<App>,
    /// The clock.
    pub clock: Clock,
    tokens: Arc<Tokens>,
    said: Arc<Mutex<VecDeque<(String, Said)>>>,
}

/// What was just done, and how it can be taken back.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// One sentence.
    pub words: String,
    /// The entry to undo and the page to come back to, where it can be undone.
    pub undo: Option<(i64, String)>,
}

impl Site {
    /// A site over an app and a clock.
    pub fn new(app: Arc<App>, clock: Clock) -> Self {
        Self {
            app,
            clock,
            tokens: Arc::default(),
            said: Arc::default(),
        }
    }

    /// Runs something that reads or writes the store, away from the threads that answer.
    ///
    /// # Errors
    /// What the action says, or that it failed while it ran.
    pub async fn run<T: Send + 'static>(
        &self,
        action: impl FnOnce(&App, &Now) -> Result<T, AppError> + Send + 'static,
    ) -> Result<T, AppError> {
        let (app, now) = (Arc::clone(&self.app), (self.clock)());
        match tokio::task::spawn_blocking(move || action(&app, &now)).await {
            Ok(result) => result,
            Err(_) => Err(AppError::failed(
                "The program stumbled over this request.",
                "Nothing was written. Go back and try once more.",
            )),
        }
    }

    /// Keeps what was done for the page that follows.
    pub fn say(&self, token: &str, words: &str, undo: Option<(i64, String)>) {
        // A panic while the list was held leaves a list that is still whole.
        let mut said = self.said.lock().unwrap_or_else(PoisonError::into_inner);
        let words = words.to_owned();
        said.push_back((token.to_owned(), Said { words, undo }));
        if said.len() > KEPT {
            said.pop_front();
        }
    }

    fn said(&self, token: &str) -> Option<Said> {
        let said = self.said.lock().unwrap_or_else(PoisonError::into_inner);
        said.iter()
            .rev()
            .find(|(key, _)| key == token)
            .map(|(_, said)| said.clone())
    }

    /// The frame of a page: `query` may name what was just done.
    pub async fn frame(&self, query: &Fields, filled: Filled) -> Frame {
        let house = self
            .run(|app, now| app.house(now))
            .await
            .ok()
            .filter(|view| view.known)
            .map(|view| {
                let elevation = if view.house.elevation.is_empty() {
                    "no elevation yet"
                } else {
                    &view.house.elevation
                };
                if view.house.name.is_empty() {
                    elevation.to_owned()
                } else {
                    format!("{}, {elevation}", view.house.name)
                }
            });
        let said = match query.get("said") {
            "" => None,
            token => self.said(token),
        };
        Frame {
            house,
            said,
            filled,
            stem: self.tokens.fresh(),
            ..Frame::default()
        }
    }
}
