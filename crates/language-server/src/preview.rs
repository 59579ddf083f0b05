//! The live picture of a document: its text is the one in the editor, a click leads the editor's cursor, and a color
//! that was tried is written by the editor, on a click.

use crate::documents::{Snapshot, uri_of};
use crate::server::{Server, ServerRef, saved};
use knotwright_checker::Report;
use knotwright_preview::{Owner, Preview, Recolor, Spot};
use ropey::Rope;
use std::collections::HashMap;
use std::sync::{Arc, mpsc};
use std::time::Duration;
use tokio::runtime::Handle;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    DocumentChanges, OneOf, OptionalVersionedTextDocumentIdentifier, Position, Range, ShowDocumentParams,
    TextDocumentEdit, TextEdit, Uri, WorkspaceEdit,
};

/// An editor that asks its user first may take a while.
const PATIENCE: Duration = Duration::from_secs(30);

/// A document whose picture is shown. It does not keep the server from ending.
struct Document {
    uri: Uri,
    server: ServerRef,
    /// Where messages are sent from.
    loop_: Handle,
}

impl Server {
    /// The address of the live picture of a document, begun if need be; within: in words why there is none.
    pub(crate) async fn preview_of(&self, uri: &Uri) -> Result<std::result::Result<String, String>> {
        if let Some(preview) = self.state().previews.get(uri) {
            return Ok(Ok(preview.address().to_owned()));
        }
        let document = Document { uri: uri.clone(), server: self.weakly(), loop_: Handle::current() };
        let server = self.clone();
        let begun = self.aside(move || server.begin(document)).await?;
        Ok(begun.unwrap_or_else(|| Err("Nobody waits for the picture any more.".to_owned())))
    }

    fn begin(&self, document: Document) -> std::result::Result<String, String> {
        let uri = document.uri.clone();
        let Some(snapshot) = document.snapshot() else {
            return Err(
                "There is no such document among those that are open or in the open folders.".to_owned()
            );
        };
        if snapshot.text.is_page() {
            return Err("The live picture follows a pattern file, not the patterns in Markdown.".to_owned());
        }
        let preview = Preview::start(Arc::new(document))
            .map_err(|error| format!("The picture cannot be served: {error}."))?;
        // Of two that were begun at once, one is enough.
        Ok(self.state().previews.entry(uri).or_insert(preview).address().to_owned())
    }

    /// Opens an address in the browser that the person uses, if the client can.
    pub(crate) fn open_outside(&self, address: &str) {
        let (shows, client) = (self.state().facts.shows, self.client().clone());
        if let Some(uri) = address.parse().ok().filter(|_| shows) {
            let params =
                ShowDocumentParams { uri, external: Some(true), take_focus: Some(true), selection: None };
            // A client that refuses shows nothing; whoever asked has the address.
            tokio::spawn(async move { client.show_document(params).await });
        }
    }
}

impl Document {
    fn snapshot(&self) -> Option<Snapshot> {
        let server = self.server.get()?;
        let (snapshot, setting) = {
            let state = server.state();
            (state.snapshot(&self.uri), state.setting())
        };
        snapshot.or_else(|| saved(&self.uri, setting))
    }

    /// Where a place is in the client's own words.
    fn range(&self, server: &Server, spot: &Spot) -> Option<(Uri, Range)> {
        let encoding = server.state().facts.encoding;
        let range = encoding.range(&Rope::from_str(&spot.text), spot.span);
        let open = server.state().documents.texts().get(&spot.path).map(|text| text.uri.clone());
        Some((open.or_else(|| uri_of(&spot.path))?, range))
    }

    /// Asks the client to write; whether it did.
    fn write(&self, server: &Server, edit: WorkspaceEdit) -> bool {
        let (tell, told) = mpsc::channel();
        let client = server.client().clone();
        self.loop_.spawn(async move { tell.send(client.apply_edit(edit).await) });
        told.recv_timeout(PATIENCE).is_ok_and(|answer| answer.is_ok_and(|answer| answer.applied))
    }
}

impl Owner for Document {
    fn look(&self) -> Option<Arc<Report>> {
        Some(Arc::new(self.snapshot()?.report().clone()))
    }

    fn show(&self, spot: Spot) -> Option<String> {
        let server = self.server.get()?;
        let (uri, range) = self.range(&server, &spot)?;
        let at @ Position { line, .. } = range.start;
        if !server.state().facts.shows {
            return Some(format!("It is on line {} of {}.", line + 1, spot.path));
        }
        let selection = Some(Range { start: at, end: range.end });
        let params = ShowDocumentParams { uri, external: None, take_focus: Some(true), selection };
        let client = server.client().clone();
        self.loop_.spawn(async move { client.show_document(params).await });
        None
    }

    fn recolor(&self, recolor: Recolor) -> String {
        let Some((server, snapshot)) = self.server.get().zip(self.snapshot()) else {
            return "The editor is gone.".to_owned();
        };
        if snapshot.text.path != recolor.spot.path || snapshot.source().text != recolor.spot.text {
            return "The text was changed meanwhile; try again.".to_owned();
        }
        let range = snapshot.range(recolor.spot.span);
        let edit = TextEdit { range, new_text: recolor.color };
        let edit = edits(&snapshot, edit, server.state().facts.versions);
        if self.write(&server, edit) {
            "It is written.".to_owned()
        } else {
            "The editor did not take it.".to_owned()
        }
    }
}

/// One edit of a document, of this version if the client counts them.
fn edits(snapshot: &Snapshot, edit: TextEdit, versions: bool) -> WorkspaceEdit {
    let (uri, version) = (snapshot.text.uri.clone(), snapshot.text.version);
    if !versions {
        return WorkspaceEdit {
            changes: Some(HashMap::from([(uri, vec![edit])])),
            ..WorkspaceEdit::default()
        };
    }
    let text_document = OptionalVersionedTextDocumentIdentifier { uri, version };
    let edits = vec![TextDocumentEdit { text_document, edits: vec![OneOf::Left(edit)] }];
    WorkspaceEdit { document_changes: Some(DocumentChanges::Edits(edits)), ..WorkspaceEdit::default() }
}
