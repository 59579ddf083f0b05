//! Colors of words, and what has changed in them since they were sent.

use super::Server;
use crate::answers::{delta, semantic_tokens, semantic_tokens_within};
use crate::documents::WordColors;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::{
    SemanticTokens, SemanticTokensDelta, SemanticTokensDeltaParams, SemanticTokensFullDeltaResult,
    SemanticTokensParams, SemanticTokensRangeParams, SemanticTokensRangeResult, SemanticTokensResult, Uri,
};

impl Server {
    pub(crate) async fn semantic_tokens(
        &self,
        params: SemanticTokensParams,
    ) -> Result<Option<SemanticTokensResult>> {
        let uri = params.text_document.uri;
        let Some(colors) = self.ask_optional(&uri, semantic_tokens).await? else { return Ok(None) };
        let (result_id, _) = self.keep_colors(&uri, colors.clone(), "");
        Ok(Some(SemanticTokens { result_id, data: colors.tokens.to_vec() }.into()))
    }

    pub(crate) async fn semantic_tokens_in_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        let range = params.range;
        let data = self
            .ask_optional(&params.text_document.uri, move |snapshot| semantic_tokens_within(snapshot, range));
        let data = data.await?;
        Ok(data.map(|data| SemanticTokens { result_id: None, data }.into()))
    }

    pub(crate) async fn semantic_tokens_delta(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        let uri = params.text_document.uri;
        let Some(colors) = self.ask_optional(&uri, semantic_tokens).await? else { return Ok(None) };
        let (result_id, before) = self.keep_colors(&uri, colors.clone(), &params.previous_result_id);
        Ok(Some(match before {
            Some(before) => {
                SemanticTokensDelta { result_id, edits: delta(&before.tokens, &colors.tokens) }.into()
            }
            None => SemanticTokens { result_id, data: colors.tokens.to_vec() }.into(),
        }))
    }

    /// Keeps what is sent, under a new name; and what was sent before, if it is what the client still has.
    fn keep_colors(&self, uri: &Uri, colors: WordColors, has: &str) -> (Option<String>, Option<WordColors>) {
        let mut state = self.state();
        state.token_results += 1;
        let name = state.token_results.to_string();
        let Some(document) = state.documents.get_mut(uri) else { return (None, None) };
        let before = document.tokens_sent.replace((name.clone(), colors));
        let before = before.filter(|(name, _)| name == has).map(|(_, colors)| colors);
        (Some(name), before)
    }
}
