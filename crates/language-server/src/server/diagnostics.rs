//! Findings, when the client asks for them.

use super::Server;
use crate::answers::{DocumentFindings, diagnostics, fingerprint, first_diagnostics};
use crate::documents::{OpenDocument, Setting, Snapshot};
use std::collections::HashMap;
use std::sync::Arc;
use std::sync::atomic::Ordering;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    Diagnostic, DocumentDiagnosticParams, DocumentDiagnosticReport, DocumentDiagnosticReportResult,
    FullDocumentDiagnosticReport, RelatedFullDocumentDiagnosticReport,
    RelatedUnchangedDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport, Uri,
    WorkspaceDiagnosticParams, WorkspaceDiagnosticReport, WorkspaceDiagnosticReportResult,
    WorkspaceDocumentDiagnosticReport, WorkspaceFullDocumentDiagnosticReport,
    WorkspaceUnchangedDocumentDiagnosticReport,
};

/// What a client has: for each document the name of what was sent.
type PreviousResults = HashMap<Uri, String>;

impl Server {
    pub(crate) async fn document_diagnostics(
        &self,
        params: DocumentDiagnosticParams,
    ) -> Result<DocumentDiagnosticReportResult> {
        let before = params.previous_result_id;
        let uri = params.text_document.uri;
        let can_ask_again = self.state().facts.refreshes.findings;
        let said_rules = self.said_rules(&uri);
        let found = move |snapshot: &Snapshot| match can_ask_again {
            true => first_diagnostics(snapshot, &said_rules),
            false => DocumentFindings::whole(diagnostics(snapshot)),
        };
        let found = self.ask(&uri, found).await?;
        let asked = uri.clone();
        if found.as_ref().is_some_and(|found| !found.is_all) {
            self.find_rest(uri);
        }
        let report = found.map(|found| of_one(self.say(&asked, found), before));
        Ok(report.unwrap_or_else(|| full(FullDocumentDiagnosticReport::default())).into())
    }

    /// What is said of a document: what is sure, and what the client shows already.
    fn say(&self, uri: &Uri, found: DocumentFindings) -> Vec<Diagnostic> {
        match self.state().documents.get_mut(uri) {
            Some(document) => {
                document.say(found.diagnostics, found.doubtful);
                document.said().to_vec()
            }
            None => found.diagnostics,
        }
    }

    /// Whether the client shows something in a document.
    pub(super) fn has_diagnostics(&self, uri: &Uri) -> bool {
        self.state().documents.get(uri).is_some_and(OpenDocument::has_diagnostics)
    }

    /// The rules of what the client shows of a document.
    pub(super) fn said_rules(&self, uri: &Uri) -> Vec<String> {
        let state = self.state();
        state.documents.get(uri).map(OpenDocument::said_rules).unwrap_or_default()
    }

    /// Looks for what takes long to find, and lets the client ask again if there is more then.
    fn find_rest(&self, uri: Uri) {
        let server = self.clone();
        let has_more =
            |snapshot: &Snapshot| first_diagnostics(snapshot, &[]).diagnostics != diagnostics(snapshot);
        tokio::spawn(async move {
            if let Ok(Some(true)) = server.ask(&uri, has_more).await {
                server.refresh_diagnostics();
            }
        });
    }

    /// Of all documents, open or not.
    pub(crate) async fn workspace_diagnostics(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        let previous: PreviousResults =
            params.previous_result_ids.into_iter().map(|one| (one.uri, one.value)).collect();
        let (setting, open) = self.all();
        let given_up = Arc::clone(&setting.given_up);
        let items = self.run_cancellable(given_up, move || of_all(&setting, open, previous)).await?;
        let items = items.unwrap_or_default();
        Ok(WorkspaceDiagnosticReport { items }.into())
    }

    /// The present setting, and all open documents.
    fn all(&self) -> (Setting, Vec<Snapshot>) {
        let mut state = self.state();
        if std::mem::take(&mut state.is_index_stale) {
            state.index = Arc::new(state.index.renewed());
        }
        let setting = state.setting();
        let open = state.documents.open_versions().values();
        let open = open.map(|version| Snapshot::new(version.clone(), setting.clone())).collect();
        (setting, open)
    }

    /// Asks a client that asks for findings to ask again: something besides its documents has changed.
    pub(crate) fn refresh_diagnostics(&self) {
        if !self.state().facts.refreshes.findings {
            return;
        }
        let client = self.client().clone();
        tokio::spawn(async move { client.workspace_diagnostic_refresh().await });
    }
}

fn of_one(items: Vec<Diagnostic>, before: Option<String>) -> DocumentDiagnosticReport {
    let result_id = fingerprint(&items);
    if before.as_ref() != Some(&result_id) {
        return full(FullDocumentDiagnosticReport { result_id: Some(result_id), items });
    }
    DocumentDiagnosticReport::Unchanged(RelatedUnchangedDocumentDiagnosticReport {
        related_documents: None,
        unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id },
    })
}

fn full(full_document_diagnostic_report: FullDocumentDiagnosticReport) -> DocumentDiagnosticReport {
    let related_documents = None;
    DocumentDiagnosticReport::Full(RelatedFullDocumentDiagnosticReport {
        related_documents,
        full_document_diagnostic_report,
    })
}

fn of_all(
    setting: &Setting,
    open: Vec<Snapshot>,
    mut previous: PreviousResults,
) -> Vec<WorkspaceDocumentDiagnosticReport> {
    let saved = setting.index.files(&setting.homes).iter();
    let saved = saved.filter(|file| !setting.open.contains_key(&file.version.text.path));
    let mut snapshots: Vec<Snapshot> = saved.map(|file| file.snapshot(setting)).chain(open).collect();
    snapshots.sort_by(|one, other| one.text.path.cmp(&other.text.path));
    let is_wanted = |_: &&Snapshot| !setting.given_up.load(Ordering::Relaxed);
    let wanted = snapshots.iter().take_while(is_wanted);
    let mut items: Vec<_> =
        wanted.map(|snapshot| in_workspace(snapshot, previous.remove(&snapshot.text.uri))).collect();
    // What was sent to the client about files that are gone is taken back.
    let mut gone: Vec<Uri> = previous.into_keys().collect();
    gone.sort();
    items.extend(gone.into_iter().map(|uri| whole(uri, None, FullDocumentDiagnosticReport::default())));
    items
}

fn in_workspace(snapshot: &Snapshot, before: Option<String>) -> WorkspaceDocumentDiagnosticReport {
    let (uri, version) = (snapshot.text.uri.clone(), snapshot.text.version.map(i64::from));
    let items = diagnostics(snapshot);
    let result_id = fingerprint(&items);
    if before.as_ref() != Some(&result_id) {
        return whole(uri, version, FullDocumentDiagnosticReport { result_id: Some(result_id), items });
    }
    WorkspaceDocumentDiagnosticReport::Unchanged(WorkspaceUnchangedDocumentDiagnosticReport {
        uri,
        version,
        unchanged_document_diagnostic_report: UnchangedDocumentDiagnosticReport { result_id },
    })
}

fn whole(
    uri: Uri,
    version: Option<i64>,
    full_document_diagnostic_report: FullDocumentDiagnosticReport,
) -> WorkspaceDocumentDiagnosticReport {
    WorkspaceDocumentDiagnosticReport::Full(WorkspaceFullDocumentDiagnosticReport {
        uri,
        version,
        full_document_diagnostic_report,
    })
}
