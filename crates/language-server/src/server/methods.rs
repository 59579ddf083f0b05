//! The methods of the protocol. What changes something is done at once, without waiting for anything; what asks
//! something is answered beside it.

use super::Server;
use crate::answers;
use tower_lsp::LanguageServer;
use tower_lsp::jsonrpc::Result;
use tower_lsp::ls_types::*;

impl LanguageServer for Server {
    async fn initialize(&self, params: InitializeParams) -> Result<InitializeResult> {
        Ok(self.hello(params))
    }

    async fn initialized(&self, _: InitializedParams) {
        self.greeted();
    }

    async fn shutdown(&self) -> Result<()> {
        self.state().previews.clear();
        Ok(())
    }

    async fn did_open(&self, params: DidOpenTextDocumentParams) {
        let uri = params.text_document.uri.clone();
        self.state().documents.open(params.text_document);
        self.changed(&uri);
    }

    async fn did_change(&self, params: DidChangeTextDocumentParams) {
        let VersionedTextDocumentIdentifier { uri, version } = params.text_document;
        let mut state = self.state();
        let encoding = state.facts.encoding;
        let is_open = state.documents.change((&uri, version), params.content_changes, encoding);
        drop(state);
        if is_open {
            self.changed(&uri);
        }
    }

    async fn did_close(&self, params: DidCloseTextDocumentParams) {
        let uri = params.text_document.uri;
        let mut state = self.state();
        let (was_open, pulls) = (state.documents.close(&uri), state.facts.pulls);
        let preview = state.previews.remove(&uri);
        drop((state, preview));
        if was_open && !pulls {
            self.unsay(&uri);
        }
        self.changed(&uri);
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
        self.pull(params).await
    }

    async fn workspace_diagnostic(
        &self,
        params: WorkspaceDiagnosticParams,
    ) -> Result<WorkspaceDiagnosticReportResult> {
        self.pull_all(params).await
    }

    async fn hover(&self, params: HoverParams) -> Result<Option<Hover>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.ask_maybe_at((&text_document.uri, position), move |snapshot| answers::hover(snapshot, position))
            .await
    }

    async fn goto_definition(&self, params: GotoDefinitionParams) -> Result<Option<GotoDefinitionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let found = self.ask_maybe_at((&text_document.uri, position), move |snapshot| {
            answers::definition(snapshot, position)
        });
        Ok(found.await?.map(GotoDefinitionResponse::Scalar))
    }

    async fn references(&self, params: ReferenceParams) -> Result<Option<Vec<Location>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let given = params.context.include_declaration;
        self.ask_at((&text_document.uri, position), move |snapshot| {
            answers::references(snapshot, position, given)
        })
        .await
    }

    async fn completion(&self, params: CompletionParams) -> Result<Option<CompletionResponse>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let found = self.ask_as_it_was(&text_document.uri, move |snapshot| {
            snapshot.at(position).map(|pattern| answers::completion(&pattern, position))
        });
        Ok(found.await?.flatten().map(CompletionResponse::Array))
    }

    async fn signature_help(&self, params: SignatureHelpParams) -> Result<Option<SignatureHelp>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let found = self.ask_as_it_was(&text_document.uri, move |snapshot| {
            answers::signature(&snapshot.at(position)?, position)
        });
        Ok(found.await?.flatten())
    }

    async fn code_action(&self, params: CodeActionParams) -> Result<Option<CodeActionResponse>> {
        let (range, only) = (params.range, params.context.only);
        self.ask(&params.text_document.uri, move |snapshot| {
            answers::actions(snapshot, range, only.as_deref())
        })
        .await
    }

    async fn document_highlight(
        &self,
        params: DocumentHighlightParams,
    ) -> Result<Option<Vec<DocumentHighlight>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.ask_at((&text_document.uri, position), move |snapshot| answers::highlights(snapshot, position))
            .await
    }

    async fn document_symbol(&self, params: DocumentSymbolParams) -> Result<Option<DocumentSymbolResponse>> {
        self.ask(&params.text_document.uri, answers::outline).await
    }

    async fn symbol(&self, params: WorkspaceSymbolParams) -> Result<Option<WorkspaceSymbolResponse>> {
        let setting = self.state().setting();
        let found = self.aside(move || answers::workspace_symbols(&setting, &params.query)).await?;
        Ok(found.map(WorkspaceSymbolResponse::Nested))
    }

    async fn folding_range(&self, params: FoldingRangeParams) -> Result<Option<Vec<FoldingRange>>> {
        self.ask(&params.text_document.uri, answers::folds).await
    }

    async fn selection_range(&self, params: SelectionRangeParams) -> Result<Option<Vec<SelectionRange>>> {
        let positions = params.positions;
        self.ask_maybe(&params.text_document.uri, move |snapshot| answers::selections(snapshot, &positions))
            .await
    }

    async fn semantic_tokens_full(
        &self,
        params: SemanticTokensParams,
    ) -> Result<Option<SemanticTokensResult>> {
        self.ink(params).await
    }

    async fn semantic_tokens_full_delta(
        &self,
        params: SemanticTokensDeltaParams,
    ) -> Result<Option<SemanticTokensFullDeltaResult>> {
        self.ink_again(params).await
    }

    async fn semantic_tokens_range(
        &self,
        params: SemanticTokensRangeParams,
    ) -> Result<Option<SemanticTokensRangeResult>> {
        self.ink_range(params).await
    }

    async fn inlay_hint(&self, params: InlayHintParams) -> Result<Option<Vec<InlayHint>>> {
        let range = params.range;
        self.ask(&params.text_document.uri, move |snapshot| answers::hints(snapshot, range)).await
    }

    async fn code_lens(&self, params: CodeLensParams) -> Result<Option<Vec<CodeLens>>> {
        self.ask(&params.text_document.uri, answers::lenses).await
    }

    async fn document_color(&self, params: DocumentColorParams) -> Result<Vec<ColorInformation>> {
        Ok(self.ask(&params.text_document.uri, answers::colors).await?.unwrap_or_default())
    }

    async fn color_presentation(&self, params: ColorPresentationParams) -> Result<Vec<ColorPresentation>> {
        Ok(answers::presentations(params.color, params.range))
    }

    async fn document_link(&self, params: DocumentLinkParams) -> Result<Option<Vec<DocumentLink>>> {
        self.ask(&params.text_document.uri, answers::links).await
    }

    async fn formatting(&self, params: DocumentFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        self.ask(&params.text_document.uri, answers::format_all).await
    }

    async fn range_formatting(&self, params: DocumentRangeFormattingParams) -> Result<Option<Vec<TextEdit>>> {
        let range = params.range;
        self.ask(&params.text_document.uri, move |snapshot| answers::format_range(snapshot, range)).await
    }

    async fn on_type_formatting(
        &self,
        params: DocumentOnTypeFormattingParams,
    ) -> Result<Option<Vec<TextEdit>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let typed = params.ch;
        self.ask(&text_document.uri, move |snapshot| answers::format_typed(snapshot, position, &typed)).await
    }

    async fn prepare_rename(
        &self,
        params: TextDocumentPositionParams,
    ) -> Result<Option<PrepareRenameResponse>> {
        let TextDocumentPositionParams { text_document, position } = params;
        self.ask_at((&text_document.uri, position), move |snapshot| {
            answers::prepare_rename(snapshot, position)
        })
        .await?
        .transpose()
    }

    async fn rename(&self, params: RenameParams) -> Result<Option<WorkspaceEdit>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position;
        let new = params.new_name;
        self.ask_at((&text_document.uri, position), move |snapshot| answers::rename(snapshot, position, &new))
            .await?
            .transpose()
    }

    async fn linked_editing_range(
        &self,
        params: LinkedEditingRangeParams,
    ) -> Result<Option<LinkedEditingRanges>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        self.ask_maybe_at((&text_document.uri, position), move |snapshot| answers::linked(snapshot, position))
            .await
    }

    async fn will_rename_files(&self, params: RenameFilesParams) -> Result<Option<WorkspaceEdit>> {
        let setting = self.state().setting();
        self.aside(move || answers::renamed_files(&setting, &params.files)).await
    }

    async fn prepare_call_hierarchy(
        &self,
        params: CallHierarchyPrepareParams,
    ) -> Result<Option<Vec<CallHierarchyItem>>> {
        let TextDocumentPositionParams { text_document, position } = params.text_document_position_params;
        let found = self.ask_maybe_at((&text_document.uri, position), move |snapshot| {
            answers::call_item(snapshot, position)
        });
        Ok(found.await?.map(|item| vec![item]))
    }

    async fn incoming_calls(
        &self,
        params: CallHierarchyIncomingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyIncomingCall>>> {
        let at = params.item.selection_range.start;
        self.ask_at((&params.item.uri, at), move |snapshot| answers::incoming(snapshot, at)).await
    }

    async fn outgoing_calls(
        &self,
        params: CallHierarchyOutgoingCallsParams,
    ) -> Result<Option<Vec<CallHierarchyOutgoingCall>>> {
        let at = params.item.selection_range.start;
        self.ask_at((&params.item.uri, at), move |snapshot| answers::outgoing(snapshot, at)).await
    }

    async fn execute_command(&self, params: ExecuteCommandParams) -> Result<Option<LSPAny>> {
        self.execute(params).await
    }
}
