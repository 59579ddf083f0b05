//! `knotwright.preview` and `knotwright.previewCursor`

use super::asked::{failed, read};
use crate::server::Server;
use serde::Deserialize;
use serde_json::{Value, json};
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{Position, Uri};

#[derive(Debug, Deserialize)]
struct PreviewRequest {
    uri: Uri,
    position: Option<Position>,
    #[serde(default)]
    open: bool,
}

#[derive(Debug, Deserialize)]
struct CursorRequest {
    uri: Uri,
    position: Option<Position>,
}

impl Server {
    /// The address of the live picture, which is begun if it is not there yet.
    pub(super) async fn preview(&self, arguments: Vec<Value>) -> Result<Value> {
        let PreviewRequest { uri, position, open } = read(arguments)?;
        let address = self.preview_of(&uri, position).await?.map_err(failed)?;
        if open {
            self.open_outside(&address);
        }
        Ok(json!({ "url": address }))
    }

    /// Shows the live picture where the cursor is. Done at once: there are many of these.
    pub(super) fn preview_cursor(&self, arguments: Vec<Value>) -> Result<Value> {
        let CursorRequest { uri, position } = read(arguments)?;
        self.point(&uri, position);
        Ok(Value::Null)
    }
}
