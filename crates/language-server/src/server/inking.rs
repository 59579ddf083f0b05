//! Colors of words, and what has changed in them since they were sent.

use super::Server;
use crate::answers::{delta, encode, encode_within};
use std::sync::Arc;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    SemanticToken, SemanticTokens, SemanticTokensDelta, SemanticTokensDeltaParams,
    SemanticTokensFullDeltaResult, SemanticTokensParams, SemanticTokensRangeParams,
    SemanticTokensRangeResult, SemanticTokensResult, Uri,
};

impl Server {
    pub(crate) async fn ink(&self, params: SemanticTokensParams) -> Result<Option<SemanticTokensResult>> {
        let uri = params.text_document.uri;
        let Some(data) = self.ask_maybe(&uri, encode).await? else { return Ok(None) };
        let (tokens, _) = self.keep(&uri, data, "");
        Ok(Some(tokens.into()))
    }

    pub(crate) async fn ink_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        let range = params.range;
        let data = self.ask_maybe(&params.text_document.uri, move |snapshot| encode_within(snapshot, range));
        let data = data.await?;
        Ok(data.map(|data| SemanticTokens { result_id: None, data }.into()))
    }

    pub(crate) async fn ink_again(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        let uri = params.text_document.uri;
        let Some(data) = self.ask_maybe(&uri, encode).await? else { return Ok(None) };
        let (tokens, before) = self.keep(&uri, data, &params.previous_result_id);
        Ok(Some(match before {
            Some(before) => {
                let SemanticTokens { result_id, data } = tokens;
                SemanticTokensDelta { result_id, edits: delta(&before, &data) }.into()
            }
            None => tokens.into(),
        }))
    }

    /// Keeps what is sent, under a new name; and what was sent before, if it is what the client still has.
    fn keep(
        &self,
        uri: &Uri,
        data: Vec<SemanticToken>,
        has: &str,
    ) -> (SemanticTokens, Option<Arc<Vec<SemanticToken>>>) {
        let mut state = self.state();
        state.inkings += 1;
        let name = state.inkings.to_string();
        let Some(document) = state.documents.get_mut(uri) else {
            return (SemanticTokens { result_id: None, data }, None);
        };
        let kept = Arc::new(data.clone());
        let before = document.inked.replace((name.clone(), kept));
        let before = before.filter(|(name, _)| name == has).map(|(_, tokens)| tokens);
        (SemanticTokens { result_id: Some(name), data }, before)
    }
}
