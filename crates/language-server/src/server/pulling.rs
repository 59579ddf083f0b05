//! Findings, when the client asks for them.

use super::Server;
use crate::answers::{diagnostics, fingerprint};
use crate::documents::Snapshot;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    DocumentDiagnosticParams, DocumentDiagnosticReport, DocumentDiagnosticReportResult,
    FullDocumentDiagnosticReport, RelatedFullDocumentDiagnosticReport,
    RelatedUnchangedDocumentDiagnosticReport, UnchangedDocumentDiagnosticReport,
};

impl Server {
    pub(crate) async fn pull(
        &self,
        params: DocumentDiagnosticParams,
    ) -> Result<DocumentDiagnosticReportResult> {
        let before = params.previous_result_id;
        let report = self.ask(&params.text_document.uri, move |snapshot| document(snapshot, before)).await?;
        Ok(report.unwrap_or_else(|| full(FullDocumentDiagnosticReport::default())).into())
    }

    /// Tells a client that asks for findings to ask again: something beside its documents has changed.
    pub(crate) fn pull_again(&self) {
        if !self.state().facts.pulls_again {
            return;
        }
        let client = self.client().clone();
        tokio::spawn(async move { client.workspace_diagnostic_refresh().await });
    }
}

fn document(snapshot: &Snapshot, before: Option<String>) -> DocumentDiagnosticReport {
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
