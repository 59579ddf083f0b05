//! The methods of the protocol. What changes something is done at once, without waiting for anything; what asks
//! something is answered at the same time.

use super::Server;
use crate::answers;
use std::sync::Arc;
use tower_lsp::LanguageServer;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::*;

impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        Ok(self.initialize_session(params))
    }

    async fn initialized(&self, _: InitializedParams) {
        self.start_session();
    }

    async fn shutdown(&self) -> Result<()> {
        self.state().previews.clear();
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let uri = params.text_document.uri.clone();
        self.state().documents.open(params.text_document);
        self.document_changed(&uri);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let uri = params.text_document.uri.clone();
        let mut state = self.state();
        let encoding = state.facts.encoding;
        let is_open = state.documents.change(params, encoding);
        drop(state);
        if is_open {
            self.document_changed(&uri);
        }
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        let uri = params.text_document.uri;
        let mut state = self.state();
        let (was_open, pulls) = (state.documents.close(&uri), state.facts.pulls);
        let preview = state.previews.remove(&uri);
        drop((state, preview));
        if was_open && !pulls {
            self.clear_diagnostics(&uri);
        }
        self.document_changed(&uri);
    }

    async fn did_change_watched_files(&self, params: DidChangeWatchedFilesParams) {
        self.files_changed(&params.changes);
    }

    async fn did_change_workspace_folders(&self, params: DidChangeWorkspaceFoldersParams) {
        self.folders_changed(params.event);
    }

    async fn did_change_configuration(&self, params: DidChangeConfigurationParams) {
        self.settings_changed(params.settings);
    }

    async fn diagnostic(&self, params: DocumentDiagnosticParams) -> Result<DocumentDiagnosticReportResult> {
        self.document_diagnostics(params).await
    }

    async fn workspace_diagnostic(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        self.workspace_diagnostics(params).await
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let place = params.text_document_position_params;
        let position = place.position;
        self.ask_optional_at(&place, move |snapshot| answers::hover(snapshot, position)).await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let place = params.text_document_position_params;
        let position = place.position;
        let found = self.ask_optional_at(&place, move |snapshot| answers::definition(snapshot, position));
        Ok(found.await?.map(GotoDefinitionResponse::Scalar))
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let place = params.text_document_position;
        let position = place.position;
        let given = params.context.include_declaration;
        self.ask_at(&place, move |snapshot| answers::references(snapshot, position, given)).await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let place = params.text_document_position;
        let position = place.position;
        let found = self.ask_snapshot(&place.text_document.uri, move |snapshot| {
            snapshot.at(position).map(|pattern| answers::completion(&pattern, position))
        });
        Ok(found.await?.flatten().map(CompletionResponse::Array))
    }

    async fn signature_help(&self, params: SignatureHelpParams) -> Result<Option<SignatureHelp>> {
        let place = params.text_document_position_params;
        let position = place.position;
        let found = self.ask_snapshot(&place.text_document.uri, move |snapshot| {
            answers::signature_help(&snapshot.at(position)?, position)
        });
        Ok(found.await?.flatten())
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        self.code_actions(params).await
    }

    async fn document_highlight(
        &self,
        params: DocumentHighlightParams,
    ) -> Result<Option<Vec<DocumentHighlight>>> {
        let place = params.text_document_position_params;
        let position = place.position;
        self.ask_at(&place, move |snapshot| answers::document_highlights(snapshot, position)).await
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        self.ask(&params.text_document.uri, answers::document_symbols).await
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<WorkspaceSymbolResponse>> {
        let setting = self.state().setting();
        let given_up = Arc::clone(&setting.given_up);
        let work = move || answers::workspace_symbols(&setting, &params.query);
        let found = self.run_cancellable(given_up, work).await?;
        Ok(found.map(WorkspaceSymbolResponse::Nested))
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.ask(&params.text_document.uri, answers::folding_ranges).await
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        let positions = params.positions;
        self.ask_optional(&params.text_document.uri, move |snapshot| {
            answers::selection_ranges(snapshot, &positions)
        })
        .await
    }

    async fn semantic_tokens_full(
        &self,
        params: SemanticTokensParams,
    ) -> Result<Option<SemanticTokensResult>> {
        self.semantic_tokens(params).await
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        self.semantic_tokens_delta(params).await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        self.semantic_tokens_in_range(params).await
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        let range = params.range;
        self.ask(&params.text_document.uri, move |snapshot| answers::inlay_hints(snapshot, range)).await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.ask(&params.text_document.uri, answers::code_lenses).await
    }

    async fn document_color(&self, params: DocumentColorParams) -> Result<Vec<ColorInformation>> {
        Ok(self.ask(&params.text_document.uri, answers::document_colors).await?.unwrap_or_default())
    }

    async fn color_presentation(&self, params: ColorPresentationParams) -> Result<Vec<ColorPresentation>> {
        Ok(answers::color_presentations(params.color, params.range))
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.ask(&params.text_document.uri, answers::document_links).await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.ask(&params.text_document.uri, answers::format_document).await
    }

    async fn range_formatting(&self, params: DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let range = params.range;
        self.ask(&params.text_document.uri, move |snapshot| answers::format_range(snapshot, range)).await
    }

    async fn on_type_formatting(
        &self,
        params: DocumentOnTypeFormattingParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        let place = params.text_document_position;
        let position = place.position;
        let typed = params.ch;
        self.ask(&place.text_document.uri, move |snapshot| {
            answers::format_on_type(snapshot, position, &typed)
        })
        .await
    }

    async fn prepare_rename(
        &self,
        params: TextDocumentPositionParams,
    ) -> Result<Option<PrepareRenameResponse>> {
        let place = params;
        let position = place.position;
        self.ask_at(&place, move |snapshot| answers::prepare_rename(snapshot, position)).await?.transpose()
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let place = params.text_document_position;
        let position = place.position;
        let new = params.new_name;
        self.ask_at(&place, move |snapshot| answers::rename(snapshot, position, &new)).await?.transpose()
    }

    async fn linked_editing_range(
        &self,
        params: LinkedEditingRangeParams,
    ) -> Result<Option<LinkedEditingRanges>> {
        let place = params.text_document_position_params;
        let position = place.position;
        self.ask_optional_at(&place, move |snapshot| answers::linked_editing_ranges(snapshot, position)).await
    }

    async fn will_rename_files(&self, params: RenameFilesParams) -> Result<Option<WorkspaceEdit>> {
        let setting = self.state().setting();
        let given_up = Arc::clone(&setting.given_up);
        self.run_cancellable(given_up, move || answers::renamed_files(&setting, &params.files)).await
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let place = params.text_document_position_params;
        let position = place.position;
        let found =
            self.ask_optional_at(&place, move |snapshot| answers::call_hierarchy_item(snapshot, position));
        Ok(found.await?.map(|item| vec![item]))
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        let (place, at) = place_of(params.item);
        self.ask_at(&place, move |snapshot| answers::incoming_calls(snapshot, at)).await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        let (place, at) = place_of(params.item);
        self.ask_at(&place, move |snapshot| answers::outgoing_calls(snapshot, at)).await
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<LSPAny>> {
        self.execute(params).await
    }
}

/// The place of something that calls or is called.
fn place_of(item: CallHierarchyItem) -> (TextDocumentPositionParams, Position) {
    let position = item.selection_range.start;
    (
        TextDocumentPositionParams { text_document: TextDocumentIdentifier { uri: item.uri }, position },
        position,
    )
}
