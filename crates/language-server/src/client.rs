//! What the client can do, and wants.

use crate::encoding::Encoding;
use tower_lsp::ls_types::{ClientCapabilities, DiagnosticTag};

/// What of a client's abilities matters here.
#[derive(Debug, Clone, Default)]
pub(crate) struct Facts {
    /// What its columns count.
    pub(crate) encoding: Encoding,
    /// Whether it asks for findings; then none are sent unasked.
    pub(crate) pulls: bool,
    /// Whether it asks again when told to.
    pub(crate) pulls_again: bool,
    /// Whether a finding may name other places.
    pub(crate) related: bool,
    /// Whether a finding may be shown as something superfluous.
    pub(crate) unnecessary: bool,
}

impl Facts {
    pub(crate) fn of(client: &ClientCapabilities) -> Self {
        let (general, text) = (client.general.as_ref(), client.text_document.as_ref());
        let offered = general.and_then(|general| general.position_encodings.as_deref());
        let published = text.and_then(|text| text.publish_diagnostics.as_ref());
        let pulled = text.and_then(|text| text.diagnostic.as_ref());
        let again = client.workspace.as_ref().and_then(|workspace| workspace.diagnostics.as_ref());
        let tags = published.and_then(|published| published.tag_support.as_ref());
        Self {
            encoding: Encoding::among(offered),
            pulls: pulled.is_some(),
            pulls_again: again.and_then(|again| again.refresh_support).unwrap_or_default(),
            related: published.and_then(|published| published.related_information).unwrap_or_default(),
            unnecessary: tags.is_some_and(|tags| tags.value_set.contains(&DiagnosticTag::UNNECESSARY)),
        }
    }
}
