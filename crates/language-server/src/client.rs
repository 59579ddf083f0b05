//! What the client can do, and wants.

use crate::encoding::Encoding;
use knotwright_editor::HintOptions;
use serde::{Deserialize, Deserializer};
use tower_lsp::ls_types::{
    ClientCapabilities, DiagnosticTag, GeneralClientCapabilities, MarkupKind, TextDocumentClientCapabilities,
    WindowClientCapabilities, WorkspaceClientCapabilities,
};

/// A command that a client may have: it asks for a new name for what is at the `position` in the document `uri`.
pub(crate) const RENAME: &str = "knotwright.rename";

/// What of a client's abilities and wishes matters here.
#[derive(Debug, Clone, Default)]
pub(crate) struct ClientFeatures {
    /// What its columns count.
    pub(crate) encoding: Encoding,
    /// Whether it asks for findings; then none are sent unasked.
    pub(crate) pulls: bool,
    /// Whether it asks again when told to: for findings, for remarks, for colors, for lines above statements.
    pub(crate) refreshes: Refreshes,
    /// Whether a finding may name other places.
    pub(crate) related: bool,
    /// Whether a finding may be shown as something superfluous.
    pub(crate) unnecessary: bool,
    /// Whether hovers may be Markdown.
    pub(crate) markdown: bool,
    /// Whether it is known to show pictures in them.
    pub(crate) pictures: bool,
    /// Whether proposals may have places to fill in.
    pub(crate) snippets: bool,
    /// Whether the outline may be a tree.
    pub(crate) outline: bool,
    /// Whether only whole lines fold.
    pub(crate) whole_lines: bool,
    /// Whether edits may say of which version they are.
    pub(crate) versions: bool,
    /// Whether actions may be more than commands.
    pub(crate) actions: bool,
    /// Whether it reports changes of files, if asked to.
    pub(crate) watches: bool,
    /// For what it can be told later, and for which documents, that it may ask.
    pub(crate) registers: Registrations,
    /// Whether it can be asked for its settings.
    pub(crate) configuration: bool,
    /// Whether it shows a document, or a page in a browser, when told to.
    pub(crate) shows: bool,
    /// Whether it shows how far work is.
    pub(crate) progress: bool,
    /// Whether it has a command of its own that asks for a new name at a place.
    pub(crate) renames: bool,
    /// What its user wants.
    pub(crate) options: Options,
    /// What was said of that as the session began.
    pub(crate) initial_options: serde_json::Value,
}

/// For what a client asks again when told to.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Refreshes {
    pub(crate) findings: bool,
    pub(crate) hints: bool,
    pub(crate) tokens: bool,
    pub(crate) lenses: bool,
}

/// What a client can be told later that it may ask for.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Registrations {
    pub(crate) formatting: bool,
    pub(crate) formatting_ranges: bool,
    pub(crate) formatting_typed: bool,
}

/// What a user can set in the editor, under `knotwright`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(default, rename_all = "camelCase")]
pub(crate) struct Options {
    /// PictureSettings in hovers.
    pub(crate) hover_pictures: PictureSettings,
    /// Remarks within the text.
    pub(crate) hints: HintSettings,
    /// Whether patterns in Markdown are formatted where the Markdown is.
    pub(crate) format_markdown: bool,
}

/// When to show pictures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum PictureSettings {
    /// Where the editor is known to show them.
    #[default]
    Auto,
    /// Wherever hovers are Markdown.
    Always,
    /// Nowhere.
    Never,
}

/// Which remarks to show.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(default)]
pub(crate) struct HintSettings {
    /// How the strands hang after each step.
    #[serde(deserialize_with = "in_words")]
    pub(crate) orders: bool,
    /// How many knots `over`, `until` and `to` came to.
    pub(crate) extents: bool,
}

/// Whether orders are shown in words: not with `"chips"`, which the client paints itself (`knotwright.orders`), nor with `"off"`.
fn in_words<'de, D: Deserializer<'de>>(value: D) -> Result<bool, D::Error> {
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Wish {
        Plain(bool),
        Named(Named),
    }
    #[derive(Deserialize, PartialEq)]
    #[serde(rename_all = "lowercase")]
    enum Named {
        Words,
        Chips,
        Off,
    }
    Ok(match Wish::deserialize(value)? {
        Wish::Plain(wanted) => wanted,
        Wish::Named(named) => named == Named::Words,
    })
}

impl Default for HintSettings {
    fn default() -> Self {
        Self { orders: true, extents: true }
    }
}

impl From<HintSettings> for HintOptions {
    fn from(HintSettings { orders, extents }: HintSettings) -> Self {
        Self { orders, extents }
    }
}

impl Options {
    /// Reads what the client sends, with or without the name above it; what cannot be understood is left as it is
    /// without it.
    pub(crate) fn read(settings: serde_json::Value) -> Self {
        serde_json::from_value(own(settings)).unwrap_or_default()
    }

    /// Reads what the client sends later. What that leaves out is as it was said with `initializationOptions`: a client that
    /// knows of no settings of ours answers with an empty object.
    pub(crate) fn read_over(initial: &serde_json::Value, settings: serde_json::Value) -> Self {
        let (mut all, later) = (own(initial.clone()), own(settings));
        match (all.as_object_mut(), later) {
            (Some(all), serde_json::Value::Object(later)) => all.extend(later),
            (Some(_), serde_json::Value::Null) => {}
            (_, later) => all = later,
        }
        serde_json::from_value(all).unwrap_or_default()
    }
}

/// What stands under our name, or all if that is not there.
fn own(settings: serde_json::Value) -> serde_json::Value {
    settings.get("knotwright").cloned().unwrap_or(settings)
}

impl ClientFeatures {
    pub(crate) fn of(client: &ClientCapabilities) -> Self {
        let mut facts = Self::default();
        client.general.iter().for_each(|general| facts.general(general));
        client.text_document.iter().for_each(|text| facts.text(text));
        client.workspace.iter().for_each(|workspace| facts.workspace(workspace));
        client.window.iter().for_each(|window| facts.window(window));
        let commands = client.experimental.as_ref().and_then(|more| more.pointer("/knotwright/commands"));
        let known = commands.and_then(serde_json::Value::as_array);
        facts.renames = known.is_some_and(|known| known.iter().any(|command| command == RENAME));
        facts
    }

    /// Whether pictures go into hovers.
    pub(crate) fn shows_pictures(&self) -> bool {
        match self.options.hover_pictures {
            PictureSettings::Auto => self.markdown && self.pictures,
            PictureSettings::Always => self.markdown,
            PictureSettings::Never => false,
        }
    }

    fn general(&mut self, general: &GeneralClientCapabilities) {
        self.encoding = Encoding::among(general.position_encodings.as_deref());
        // The parser of VS Code and its kin, whatever name they give themselves; they show pictures.
        self.pictures = general.markdown.as_ref().is_some_and(|markdown| markdown.parser == "marked");
    }

    fn text(&mut self, text: &TextDocumentClientCapabilities) {
        self.pulls = text.diagnostic.is_some();
        if let Some(published) = &text.publish_diagnostics {
            let tags = published.tag_support.as_ref();
            self.related = published.related_information.unwrap_or_default();
            self.unnecessary = tags.is_some_and(|tags| tags.value_set.contains(&DiagnosticTag::UNNECESSARY));
        }
        let hover = text.hover.as_ref().and_then(|hover| hover.content_format.as_ref());
        self.markdown = hover.is_some_and(|formats| formats.contains(&MarkupKind::Markdown));
        let items = text.completion.as_ref().and_then(|completion| completion.completion_item.as_ref());
        self.snippets = items.and_then(|items| items.snippet_support).unwrap_or_default();
        let outline = text.document_symbol.as_ref();
        self.outline =
            outline.and_then(|outline| outline.hierarchical_document_symbol_support).unwrap_or_default();
        let folding = text.folding_range.as_ref();
        self.whole_lines = folding.and_then(|folding| folding.line_folding_only).unwrap_or_default();
        let (whole, ranges, typed) = (&text.formatting, &text.range_formatting, &text.on_type_formatting);
        let registers = |dynamic: Option<bool>| dynamic.unwrap_or_default();
        self.registers = Registrations {
            formatting: whole.is_some_and(|it| registers(it.dynamic_registration)),
            formatting_ranges: ranges.is_some_and(|it| registers(it.dynamic_registration)),
            formatting_typed: typed.is_some_and(|it| registers(it.dynamic_registration)),
        };
        let actions = text.code_action.as_ref();
        self.actions = actions.is_some_and(|actions| actions.code_action_literal_support.is_some());
    }

    fn workspace(&mut self, workspace: &WorkspaceClientCapabilities) {
        let edits = workspace.workspace_edit.as_ref();
        self.versions = edits.and_then(|edits| edits.document_changes).unwrap_or_default();
        let watched = workspace.did_change_watched_files.as_ref();
        self.watches = watched.and_then(|watched| watched.dynamic_registration).unwrap_or_default();
        self.configuration = workspace.configuration.unwrap_or_default();
        let (hints, lenses) = (workspace.inlay_hint.as_ref(), workspace.code_lens.as_ref());
        let (findings, tokens) = (workspace.diagnostics.as_ref(), workspace.semantic_tokens.as_ref());
        self.refreshes = Refreshes {
            findings: findings.and_then(|findings| findings.refresh_support).unwrap_or_default(),
            hints: hints.and_then(|hints| hints.refresh_support).unwrap_or_default(),
            tokens: tokens.and_then(|tokens| tokens.refresh_support).unwrap_or_default(),
            lenses: lenses.and_then(|lenses| lenses.refresh_support).unwrap_or_default(),
        };
    }

    fn window(&mut self, window: &WindowClientCapabilities) {
        self.progress = window.work_done_progress.unwrap_or_default();
        self.shows = window.show_document.as_ref().is_some_and(|show| show.support);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn pictures_are_shown_where_they_can_be_seen_and_are_wanted() {
        let shows = |parser: &str, format: &str, wish: &str| {
            let can = json!({
                "general": { "markdown": { "parser": parser } },
                "textDocument": { "hover": { "contentFormat": [format] } },
            });
            let mut facts = ClientFeatures::of(&serde_json::from_value(can).unwrap());
            facts.options = Options::read(json!({ "knotwright": { "hoverPictures": wish } }));
            facts.shows_pictures()
        };
        assert!(shows("marked", "markdown", "auto") && shows("other", "markdown", "always"));
        assert!(!shows("other", "markdown", "auto") && !shows("marked", "markdown", "never"));
        assert!(!shows("marked", "plaintext", "always"));
    }

    #[test]
    fn wishes_that_cannot_be_understood_are_no_wishes() {
        assert_eq!(
            Options::read(json!({ "hints": { "orders": false } })).hints,
            HintSettings { orders: false, extents: true }
        );
        for (wish, words) in [("words", true), ("chips", false), ("off", false)] {
            assert_eq!(Options::read(json!({ "hints": { "orders": wish } })).hints.orders, words, "{wish}");
        }
        assert_eq!(Options::read(json!({ "hints": 3 })), Options::default());
        assert_eq!(Options::read(json!(null)), Options::default());
    }

    #[test]
    fn what_is_not_said_later_is_as_it_was_said_at_first() {
        let initial = json!({ "knotwright": { "hoverPictures": "never", "formatMarkdown": true } });
        let first = Options::read(initial.clone());
        assert_eq!(Options::read_over(&initial, json!({})), first);
        assert_eq!(Options::read_over(&initial, json!(null)), first);
        assert_eq!(
            Options::read_over(&initial, json!({ "knotwright": { "formatMarkdown": false } })),
            Options { format_markdown: false, ..first }
        );
        assert_eq!(
            Options::read_over(&json!(null), json!({ "hoverPictures": "never" })).hover_pictures,
            PictureSettings::Never
        );
    }
}
