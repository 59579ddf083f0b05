//! What an editor, or a program that sits in one, can ask for by name. docs/language-server.md lists it.
//!
//! Every command takes one object, which names a document if it is about one, and answers with an object. One file a command;
//! this one says which there are.

mod asked;
mod explain;
mod fewest;
mod orders;
mod picture;
mod preview;
mod thread;
mod words;

use crate::server::Server;
use asked::AnswerMoment;
use tower_lsp::jsonrpc::{Error, Result};
use tower_lsp::ls_types::{ExecuteCommandParams, LSPAny};

pub(crate) const PICTURE: &str = "knotwright.picture";
pub(crate) const WORDS: &str = "knotwright.words";
pub(crate) const THREAD: &str = "knotwright.thread";
pub(crate) const FEWEST_PICK_UPS: &str = "knotwright.fewestPickUps";
pub(crate) const PREVIEW: &str = "knotwright.preview";
pub(crate) const PREVIEW_CURSOR: &str = "knotwright.previewCursor";
pub(crate) const EXPLAIN: &str = "knotwright.explain";
pub(crate) const ORDERS: &str = "knotwright.orders";

/// All of them.
pub(crate) const NAMES: [&str; 8] =
    [PICTURE, WORDS, THREAD, FEWEST_PICK_UPS, EXPLAIN, PREVIEW, PREVIEW_CURSOR, ORDERS];

impl Server {
    /// Does what is asked for by name.
    pub(crate) async fn execute(&self, params: ExecuteCommandParams) -> Result<Option<LSPAny>> {
        let ExecuteCommandParams { command, arguments, .. } = params;
        let answer = match command.as_str() {
            PICTURE => self.command(arguments, AnswerMoment::Asked, picture::answer).await,
            WORDS => self.command(arguments, AnswerMoment::Asked, words::answer).await,
            THREAD => self.command(arguments, AnswerMoment::Asked, thread::answer).await,
            // Its text is to be put in the place of the present one.
            FEWEST_PICK_UPS => self.command(arguments, AnswerMoment::Present, fewest::answer).await,
            EXPLAIN => asked::without_band(arguments, explain::answer),
            ORDERS => self.orders(arguments).await,
            PREVIEW => self.preview(arguments).await,
            PREVIEW_CURSOR => self.preview_cursor(arguments),
            _ => Err(Error::invalid_params(format!("There is no command `{command}`."))),
        };
        answer.map(Some)
    }
}
