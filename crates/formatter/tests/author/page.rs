//! The page that the author writes on: words, and white space as the dice fall.

/// A text in the making, and the dice left.
pub(crate) struct Page<'d> {
    text: String,
    dice: std::slice::Iter<'d, u8>,
    line_end: &'static str,
}

const SPACES: [&str; 6] = [" ", "  ", "\t", " \t ", "   ", "        "];
const COMMENTS: [&str; 5] =
    ["-- slack tide", "--", "--close", "-- { , then \"", "-- allow idle-strand: a core  \t"];

impl<'d> Page<'d> {
    pub(crate) fn new(dice: &'d [u8]) -> Self {
        let mut page = Self { text: String::new(), dice: dice.iter(), line_end: "\n" };
        let mark = page.pick(&["", "", "", "\u{feff}"]);
        page.text.push_str(mark);
        page.line_end = page.pick(&["\n", "\n", "\r\n", "\r"]);
        page.blank_lines();
        page
    }

    /// A number below `sides`.
    pub(crate) fn roll(&mut self, sides: usize) -> usize {
        self.dice.next().map_or(0, |&die| usize::from(die) % sides)
    }

    /// One of `words`, the first if the dice are gone.
    pub(crate) fn pick<'w>(&mut self, words: &[&'w str]) -> &'w str {
        words[self.roll(words.len())]
    }

    /// Something written close to what stands before it.
    pub(crate) fn close(&mut self, text: &str) -> &mut Self {
        self.text.push_str(text);
        self
    }

    /// A word with white space before it.
    pub(crate) fn word(&mut self, text: &str) -> &mut Self {
        self.space();
        self.close(text)
    }

    /// A sign that needs no white space before it but may have some.
    pub(crate) fn sign(&mut self, text: &str) -> &mut Self {
        if self.roll(4) == 3 {
            self.space();
        }
        self.close(text)
    }

    /// Words, each with white space before it.
    pub(crate) fn words(&mut self, text: &str) -> &mut Self {
        for word in text.split(' ') {
            self.word(word);
        }
        self
    }

    /// White space where there must be some.
    pub(crate) fn space(&mut self) {
        let space = self.pick(&SPACES);
        self.text.push_str(space);
    }

    /// After a comma or a `|`: the statement may run on in the next line.
    pub(crate) fn may_run_on(&mut self) {
        if self.roll(4) == 3 {
            self.end_line();
        }
    }

    /// Ends a line: white space, a comment, blank lines, the indent of the next.
    pub(crate) fn end_line(&mut self) {
        if self.roll(5) == 4 {
            self.space();
            let comment = self.pick(&COMMENTS);
            self.text.push_str(comment);
        } else if self.roll(5) == 4 {
            self.space();
        }
        self.text.push_str(self.line_end);
        self.blank_lines();
    }

    fn blank_lines(&mut self) {
        for _ in 0..[0, 0, 0, 1, 2, 4][self.roll(6)] {
            if self.roll(3) == 2 {
                let comment = self.pick(&COMMENTS);
                self.text.push_str(comment);
            }
            self.text.push_str(self.line_end);
        }
        let indent = ["", "", "  ", "\t", "       "][self.roll(5)];
        self.text.push_str(indent);
    }

    pub(crate) fn done(mut self) -> String {
        if self.roll(8) == 7 {
            let kept = self.text.trim_end_matches([' ', '\t', '\n', '\r']).len();
            self.text.truncate(kept);
        }
        self.text
    }
}
