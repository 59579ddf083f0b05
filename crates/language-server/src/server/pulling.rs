//! Findings, when the client asks for them.

use super::Server;
use crate::answers::{diagnostics, fingerprint};
use crate::documents::{Setting, Snapshot};
use std::collections::HashMap;
use std::sync::Arc;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    DocumentDiagnosticParams, DocumentDiagnosticReport, DocumentDiagnosticReportResult,
    FullDocumentDiagnosticReport, RelatedFullDocumentDiagnosticReport,
    RelatedUnchangedDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport, Uri,
    WorkspaceDiagnosticParams, WorkspaceDiagnosticReport, WorkspaceDiagnosticReportResult,
    WorkspaceDocumentDiagnosticReport, WorkspaceFullDocumentDiagnosticReport,
    WorkspaceUnchangedDocumentDiagnosticReport,
};

/// What a client has: for each document the name of what it was told.
type Told = HashMap<Uri, String>;

impl Server {
    pub(crate) async fn pull(
        &self,
        params: DocumentDiagnosticParams,
    ) -> Result<DocumentDiagnosticReportResult> {
        let before = params.previous_result_id;
        let report = self.ask(&params.text_document.uri, move |snapshot| of_one(snapshot, before)).await?;
        Ok(report.unwrap_or_else(|| full(FullDocumentDiagnosticReport::default())).into())
    }

    /// Of all documents, open or not.
    pub(crate) async fn pull_all(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        let told: Told = params.previous_result_ids.into_iter().map(|one| (one.uri, one.value)).collect();
        let (setting, open) = self.all();
        let items = self.aside(move || of_all(&setting, open, told)).await?.unwrap_or_default();
        Ok(WorkspaceDiagnosticReport { items }.into())
    }

    /// The present setting, and all open documents.
    fn all(&self) -> (Setting, Vec<Snapshot>) {
        let mut state = self.state();
        if std::mem::take(&mut state.is_index_stale) {
            state.index = Arc::new(state.index.renewed());
        }
        let uris = state.documents.texts().values().map(|text| text.uri.clone());
        let open: Vec<Snapshot> = uris.filter_map(|uri| state.snapshot(&uri)).collect();
        (state.setting(), open)
    }

    /// Tells a client that asks for findings to ask again: something beside its documents has changed.
    pub(crate) fn pull_again(&self) {
        if !self.state().facts.again.findings {
            return;
        }
        let client = self.client().clone();
        tokio::spawn(async move { client.workspace_diagnostic_refresh().await });
    }
}

fn of_one(snapshot: &Snapshot, before: Option<String>) -> DocumentDiagnosticReport {
    let items = diagnostics(snapshot);
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

fn of_all(setting: &Setting, open: Vec<Snapshot>, mut told: Told) -> Vec<WorkspaceDocumentDiagnosticReport> {
    let saved = setting.index.files(&setting.homes).iter();
    let saved = saved.filter(|file| !setting.open.contains_key(&file.text.path));
    let mut snapshots: Vec<Snapshot> = saved.map(|file| file.snapshot(setting)).chain(open).collect();
    snapshots.sort_by(|one, other| one.text.path.cmp(&other.text.path));
    let mut items: Vec<_> =
        snapshots.iter().map(|snapshot| in_workspace(snapshot, told.remove(&snapshot.text.uri))).collect();
    // What the client was told of files that are gone is taken back.
    let mut gone: Vec<Uri> = told.into_keys().collect();
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
