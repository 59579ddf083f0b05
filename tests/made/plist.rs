//! The TextMate grammar as a property list: the form that Sublime Text reads.

use serde_json::Value;

/// The text of a property list that says what `json` does.
pub(crate) fn plist(json: &str) -> String {
    let grammar: Value = serde_json::from_str(json).expect("the grammar is JSON");
    let mut text = String::from(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <!-- Made from grammar/textmate/knotwright.tmLanguage.json by `cargo xtask bless`. -->\n\
         <plist version=\"1.0\">\n",
    );
    put(&grammar, 0, &mut text);
    text + "</plist>\n"
}

fn put(value: &Value, depth: usize, text: &mut String) {
    let line = |text: &mut String, depth: usize, tag: &str| {
        text.extend(["  ".repeat(depth).as_str(), tag, "\n"]);
    };
    match value {
        Value::Object(fields) => {
            line(text, depth, "<dict>");
            for (name, value) in fields {
                line(text, depth + 1, &format!("<key>{name}</key>"));
                put(value, depth + 1, text);
            }
            line(text, depth, "</dict>");
        }
        Value::Array(values) => {
            line(text, depth, "<array>");
            values.iter().for_each(|value| put(value, depth + 1, text));
            line(text, depth, "</array>");
        }
        Value::String(string) => {
            let string = string.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
            line(text, depth, &format!("<string>{string}</string>"));
        }
        other => panic!("a grammar has no {other}"),
    }
}
