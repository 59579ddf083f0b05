//! A folder with files, and a client that works in it.

use crate::client::{Client, opened};
use serde_json::{Value, json};
use std::path::PathBuf;

pub(crate) const LIBRARY: &str =
    "pattern \"Fans\"\n\n-- A strand goes across.\nmotif turn(size) {\n  take left 1: forward size\n}\n";

pub(crate) const BAND: &str = "pattern \"Pier\"\nthread kelp #1f5d50\nthread foam white\nstrands 2 kelp 2 foam\n\
    use turn from \"lib/fans.knot\"\nset {\n  work turn(3)\n  work turn(3)\n  take left 1 (foam): forward to edge\n  \
    take left 1 as last: forward 3\n  expect start\n}\n";

pub(crate) struct Stage {
    folder: tempfile::TempDir,
}

impl Stage {
    /// [`BAND`] in `band.knot`, [`LIBRARY`] in `lib/fans.knot`.
    pub(crate) fn new() -> Self {
        let stage = Self { folder: tempfile::tempdir().unwrap() };
        std::fs::create_dir(stage.path(".git")).unwrap();
        stage.write("band.knot", BAND);
        stage.write("lib/fans.knot", LIBRARY);
        stage
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().canonicalize().unwrap().join(name)
    }

    pub(crate) fn write(&self, name: &str, text: &str) {
        std::fs::create_dir_all(self.path(name).parent().unwrap()).unwrap();
        std::fs::write(self.path(name), text).unwrap();
    }

    pub(crate) fn uri(&self, name: &str) -> String {
        format!("file://{}", self.path(name).display())
    }

    /// A client with this folder and `band.knot` open, that asks for findings itself.
    pub(crate) async fn client(&self, mut can: Value) -> Client {
        can["textDocument"]["diagnostic"] = json!({});
        let mut client = Client::silent();
        let folder = json!({ "uri": self.uri(""), "name": "stage" });
        client.hello(json!({ "capabilities": can, "workspaceFolders": [folder] })).await;
        client.tell("textDocument/didOpen", opened(&self.uri("band.knot"), BAND)).await;
        client
    }

    /// Params with `band.knot` and a position in it.
    pub(crate) fn at(&self, line: u32, column: u32) -> Value {
        let position = json!({ "line": line, "character": column });
        json!({ "textDocument": { "uri": self.uri("band.knot") }, "position": position })
    }

    /// Params with `band.knot`.
    pub(crate) fn band(&self) -> Value {
        json!({ "textDocument": { "uri": self.uri("band.knot") } })
    }
}

/// `text` after edits of the protocol, columns in UTF-16 (all samples here are ASCII).
pub(crate) fn applied(text: &str, edits: &Value) -> String {
    let offset = |place: &Value| {
        let (line, column) = (place["line"].as_u64().unwrap(), place["character"].as_u64().unwrap());
        let start: usize = text.split_inclusive('\n').take(line as usize).map(str::len).sum();
        start + column as usize
    };
    let mut edits: Vec<(usize, usize, &str)> = edits
        .as_array()
        .unwrap()
        .iter()
        .map(|edit| {
            let range = &edit["range"];
            (offset(&range["start"]), offset(&range["end"]), edit["newText"].as_str().unwrap())
        })
        .collect();
    edits.sort_unstable();
    let mut out = text.to_owned();
    for (start, end, new) in edits.into_iter().rev() {
        out.replace_range(start..end, new);
    }
    out
}
