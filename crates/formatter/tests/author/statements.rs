//! What the author writes: every statement, every strand, every extent.

use super::page::Page;

const LENGTHS: [&str; 4] = ["15 cm", "0.9 mm", "6 in", "1 m"];
const THREADS: [&str; 5] = ["kelp", "foam", "cm", "then", "ölgrün"];
const NUMBERS: [&str; 3] = ["2", "size", "10"];

pub(crate) fn whole_file(page: &mut Page) {
    page.close("pattern").word("\"Tide \\\"pool\\\"\"");
    if page.roll(3) == 2 {
        page.words("edition 1");
    }
    page.end_line();
    for _ in 0..page.roll(5) {
        head(page);
        page.end_line();
    }
    page.close("set");
    block(page, 0);
    page.end_line();
}

fn head(page: &mut Page) {
    match page.roll(9) {
        0 => {
            page.close("about").word("\"a  \\\\ pool\"");
        }
        1 => thread(page),
        2 => strands(page),
        3 => gauge(page),
        4 => colorway(page),
        5 => {
            page.close("start").words("loop 2 cm pairs mirrored");
        }
        6 => imports(page),
        7 => motif(page),
        _ => length(page),
    }
}

fn length(page: &mut Page) {
    let word = page.pick(&["length", "ends"]);
    let length = page.pick(&LENGTHS);
    page.close(word).words(length);
}

fn thread(page: &mut Page) {
    let name = page.pick(&THREADS);
    let color = page.pick(&["teal", "#fff", "#1f5d50"]);
    page.close("thread").word(name).word(color);
    if page.roll(2) == 1 {
        page.sign("\"deep  kelp\"");
    }
}

fn strands(page: &mut Page) {
    page.close("strands");
    if page.roll(3) == 2 {
        page.words("from left");
        items(page);
        page.sign(",").may_run_on();
        page.words("from right");
        items(page);
    } else {
        list(page);
    }
}

fn list(page: &mut Page) {
    items(page);
    if page.roll(2) == 1 {
        page.sign("|").may_run_on();
        page.word("mirror");
    }
}

fn items(page: &mut Page) {
    for index in 0..=page.roll(4) {
        if index > 0 && page.roll(3) == 2 {
            page.sign(",").may_run_on();
        }
        match page.roll(4) {
            1 => page.word("3"),
            2 => page.word("(").sign("size").word("-").word("1").sign(")"),
            _ => page,
        };
        let name = page.pick(&THREADS);
        page.word(name);
    }
}

fn gauge(page: &mut Page) {
    page.close("gauge").sign("{").end_line();
    page.close("thickness").words("0.9 mm").end_line();
    page.close("10").words("knots use 105 mm").end_line();
    page.close("}");
}

fn colorway(page: &mut Page) {
    page.close("colorway").word("\"Dusk\"").sign("{").end_line();
    thread(page);
    page.end_line();
    page.close("}");
}

fn imports(page: &mut Page) {
    page.close("use").word("fan").sign(",").may_run_on();
    page.words("hem from").word("\"parts.knot\"");
}

fn motif(page: &mut Page) {
    page.close("motif").word("fan").sign("(").sign("size").sign(",").may_run_on();
    page.word("foam").sign(")");
    if page.roll(2) == 1 {
        page.words("on 4");
    }
    block(page, 2);
}

fn block(page: &mut Page, depth: usize) {
    page.sign("{");
    if page.roll(3) == 2 && depth > 0 {
        page.space();
        body(page, depth);
        page.space();
        page.close("}");
        return;
    }
    page.end_line();
    for _ in 0..page.roll(4) {
        body(page, depth);
        page.end_line();
    }
    page.close("}");
}

fn body(page: &mut Page, depth: usize) {
    match page.roll(if depth < 4 { 12 } else { 5 }) {
        0 => take(page),
        1 => {
            page.close("meet").word("center");
        }
        2 => work(page),
        3 => {
            page.close("note").word("\"turn,  then go on\"");
        }
        4 => expect(page),
        5 => rows(page),
        6 => leader(page),
        kind => nested(page, kind, depth),
    }
}

fn nested(page: &mut Page, kind: usize, depth: usize) {
    match kind {
        7 => page.close("both"),
        8 => page.close("on").words("2 to").word("(").sign("size").word("+").word("1").sign(")"),
        9 => page.close("repeat").words("size * 2"),
        10 => page.close("for").words("k 4 down to 1 by 2"),
        _ => page.close("section").word("\"fans\""),
    };
    block(page, depth + 1);
}

fn work(page: &mut Page) {
    page.close("work").word("fan").sign("(").sign("size").word("-").word("1");
    page.sign(",").may_run_on();
    page.word("foam").sign(")");
    if page.roll(2) == 1 {
        page.word("mirrored");
    }
}

fn expect(page: &mut Page) {
    page.close("expect");
    match page.roll(3) {
        0 => {
            page.word("start");
        }
        _ => list(page),
    }
}

fn take(page: &mut Page) {
    let strand = page.pick(&["left 1", "right 2", "center left", "center", "foam 1 left of center", "lead"]);
    page.close("take").words(strand);
    if page.roll(3) == 2 {
        page.sign("(").sign("foam").sign(")");
    }
    if page.roll(3) == 2 {
        page.words("as lead");
    }
    page.sign(":");
    runs(page);
    for _ in 0..page.roll(3) {
        let comma = page.pick(&["", "", ","]);
        page.sign(comma);
        match page.roll(2) {
            0 => page.end_line(),
            _ => page.space(),
        }
        page.close("then");
        runs(page);
    }
}

fn runs(page: &mut Page) {
    for index in 0..=page.roll(3) {
        if index > 0 {
            page.sign(",").may_run_on();
        }
        let kind = page.pick(&["forward", "backward"]);
        page.word(kind);
        match page.roll(5) {
            0 => {
                page.word(NUMBERS[index % 3]);
            }
            1 => {
                page.words("2 over foam");
            }
            2 => {
                page.words("until kelp");
            }
            3 => {
                page.words("to edge");
            }
            _ => {
                page.words("to left 3");
            }
        }
    }
}

fn rows(page: &mut Page) {
    page.close("rows");
    if page.roll(2) == 1 {
        page.word("offset");
    }
    chart(page, &["\\", "/", "x", ".", "<", ">"]);
}

fn leader(page: &mut Page) {
    page.close("leader").words("left 1");
    if page.roll(2) == 1 {
        page.sign("(").sign("foam").sign(")");
    }
    chart(page, &[".", "#"]);
}

fn chart(page: &mut Page, marks: &[&str]) {
    page.sign("{").end_line();
    for _ in 0..page.roll(5) {
        for _ in 0..=page.roll(4) {
            let mark = page.pick(marks);
            page.sign(mark);
        }
        page.end_line();
    }
    page.close("}");
}
