//! The live picture of a document: its text is the one in the editor, a click leads the editor's cursor, and a color
//! that was tried is written by the editor, on a click.

use crate::documents::{Snapshot, uri_of};
use crate::server::{Server, ServerRef, saved};
use knotwright_checker::Report;
use knotwright_preview::{Destination, Owner, Preview, Recolor};
use ropey::Rope;
use std::collections::HashMap;
use std::sync::atomic::{AtomicUsize, Ordering};
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

/// The live picture of a document.
#[derive(Debug)]
pub(crate) struct Live {
    preview: Preview,
    /// Which of its patterns is shown; the one where the cursor was last.
    which: Arc<AtomicUsize>,
}

/// A document whose picture is shown. It does not keep the server from ending.
struct ShownDocument {
    uri: Uri,
    which: Arc<AtomicUsize>,
    server: ServerRef,
    /// Where messages are sent from.
    loop_: Handle,
}

impl Live {
    /// The document is another one now.
    pub(crate) fn changed(&self) {
        self.preview.changed();
    }

    /// The cursor is in this pattern, at this byte, or in none.
    fn point(&self, at: Option<(usize, u32)>) {
        if let Some((which, _)) = at
            && self.which.swap(which, Ordering::Relaxed) != which
        {
            self.preview.turned();
        }
        self.preview.cursor(at.map(|(_, offset)| offset));
    }
}

impl Server {
    /// The address of the live picture of a document, begun if need be, of the pattern at a position if there are several;
    /// within: in words why there is none.
    pub(crate) async fn preview_of(
        &self,
        uri: &Uri,
        at: Option<Position>,
    ) -> Result<std::result::Result<String, String>> {
        let (uri, server) = (uri.clone(), self.clone());
        let loop_ = Handle::current();
        let begun = self.run_blocking(move || {
            let address = server.begin(&uri, loop_)?;
            if at.is_some() {
                server.point(&uri, at);
            }
            Ok(address)
        });
        Ok(begun.await?.unwrap_or_else(|| Err("Nobody is waiting for the picture anymore.".to_owned())))
    }

    fn begin(&self, uri: &Uri, loop_: Handle) -> std::result::Result<String, String> {
        if let Some(live) = self.state().previews.get(uri) {
            return Ok(live.preview.address().to_owned());
        }
        let which = Arc::default();
        let document =
            ShownDocument { uri: uri.clone(), which: Arc::clone(&which), server: self.weakly(), loop_ };
        let Some(snapshot) = document.snapshot() else {
            return Err("This document is not open, and not in an open folder.".to_owned());
        };
        if snapshot.nth(0).is_none() {
            return Err("There is no pattern in this document.".to_owned());
        }
        let preview = Preview::start(Arc::new(document)).map_err(|error| {
            format!("The picture cannot be shown: {}.", knotwright_workspace::refusal(&error))
        })?;
        // Of two that were begun at once, one is enough.
        let live = Live { preview, which };
        Ok(self.state().previews.entry(uri.clone()).or_insert(live).preview.address().to_owned())
    }

    /// Shows the live picture of a document where the cursor is.
    pub(crate) fn point(&self, uri: &Uri, position: Option<Position>) {
        let snapshot = {
            let state = self.state();
            state.previews.contains_key(uri).then(|| state.snapshot(uri)).flatten()
        };
        let at = snapshot.zip(position).and_then(|(snapshot, position)| {
            let which = snapshot.which(position)?;
            Some((which, snapshot.nth(which)?.in_place().offset(position)))
        });
        if let Some(live) = self.state().previews.get(uri) {
            live.point(at);
        }
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

impl ShownDocument {
    fn snapshot(&self) -> Option<Snapshot> {
        let server = self.server.get()?;
        let (snapshot, setting) = {
            let state = server.state();
            (state.snapshot(&self.uri), state.setting())
        };
        snapshot.or_else(|| saved(&self.uri, setting))
    }

    /// The pattern that is shown.
    fn pattern(&self) -> Option<Snapshot> {
        Some(self.snapshot()?.nth(self.which.load(Ordering::Relaxed))?.in_place())
    }

    /// Where a place is in the client's own words.
    fn range(&self, server: &Server, spot: &Destination) -> Option<(Uri, Range)> {
        let encoding = server.state().facts.encoding;
        let range = encoding.range(&Rope::from_str(&spot.text), spot.span);
        let open =
            server.state().documents.open_versions().get(&spot.path).map(|version| version.text.uri.clone());
        Some((open.or_else(|| uri_of(&spot.path))?, range))
    }

    /// Asks the client to write; whether it did.
    fn write(&self, server: &Server, edit: WorkspaceEdit) -> bool {
        let (tell, heard) = mpsc::channel();
        let client = server.client().clone();
        self.loop_.spawn(async move { tell.send(client.apply_edit(edit).await) });
        heard.recv_timeout(PATIENCE).is_ok_and(|answer| answer.is_ok_and(|answer| answer.applied))
    }
}

impl Owner for ShownDocument {
    fn look(&self) -> Option<Arc<Report>> {
        Some(Arc::new(self.pattern()?.report()))
    }

    fn again(&self) -> String {
        "The editor that showed it has closed, or its language server has ended: open the live picture there again."
            .to_owned()
    }

    fn show(&self, spot: Destination) -> Option<String> {
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
        let Some((server, snapshot)) = self.server.get().zip(self.pattern()) else {
            return "The editor has closed.".to_owned();
        };
        if snapshot.text.path != recolor.spot.path || snapshot.source().text != recolor.spot.text {
            return "The text has changed in the meantime; try again.".to_owned();
        }
        let range = snapshot.range(recolor.spot.span);
        let edit = TextEdit { range, new_text: recolor.color };
        let edit = edits(&snapshot, edit, server.state().facts.versions);
        if self.write(&server, edit) {
            "The color is now in the file.".to_owned()
        } else {
            "The editor did not accept the change.".to_owned()
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
