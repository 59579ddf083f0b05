//! Every form of every statement, one a line.

const HEAD: &str = include_str!("../forms/head.txt");
const BODY: &str = include_str!("../forms/body.txt");

/// Each as a whole file.
pub fn files() -> impl Iterator<Item = String> {
    let head = HEAD.lines().map(|line| format!("{line}\n"));
    let body = BODY.lines().map(|line| format!("set {{\n  {line}\n}}\n"));
    head.chain(body)
}

/// All in one file.
pub fn together() -> String {
    let body: String = BODY.lines().map(|line| format!("  {line}\n")).collect();
    format!("pattern \"All forms\" edition 1\n\n{HEAD}\nset {{\n{body}}}\n")
}
