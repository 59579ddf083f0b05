//! A document of SVG, written from top to bottom.

use std::fmt::{Arguments, Write};

use crate::path::Point;
use crate::text::{write_escaped, write_number};

pub(crate) struct Xml {
    out: String,
    prefix: String,
}

impl Xml {
    /// An empty document whose names begin with `prefix`, as far as it is made of ASCII letters, digits, `-`, `_`.
    pub(crate) fn new(prefix: &str) -> Self {
        let kept = |letter: &char| letter.is_ascii_alphanumeric() || matches!(letter, '-' | '_');
        Self { out: String::with_capacity(8192), prefix: prefix.chars().filter(kept).collect() }
    }

    pub(crate) fn finish(self) -> String {
        self.out
    }

    /// What every name in the document begins with.
    pub(crate) fn prefix(&self) -> &str {
        &self.prefix
    }

    /// Adds markup.
    pub(crate) fn put(&mut self, markup: &str) {
        self.out.push_str(markup);
    }

    /// Adds markup with what is in it.
    pub(crate) fn add(&mut self, markup: Arguments<'_>) {
        // A String takes whatever is written: the result says nothing.
        let _ = self.out.write_fmt(markup);
    }

    /// Adds the outline of a line.
    pub(crate) fn path(&mut self, path: &crate::path::Path) {
        path.write(&mut self.out);
    }

    /// Attributes whose values are numbers.
    pub(crate) fn numbers(&mut self, values: &[(&str, f64)]) {
        for (name, value) in values {
            self.add(format_args!(" {name}=\""));
            write_number(&mut self.out, *value);
            self.out.push('"');
        }
    }

    /// The root: how large it is shown, how large it is in its own unit, and what it is called.
    pub(crate) fn open(&mut self, shown: Point, size: Point, title: &str) {
        self.begin_root(shown);
        self.view(Point::default(), size, title);
    }

    /// The root of a part of a picture in its own size: from where, and how large.
    pub(crate) fn open_part(&mut self, from: Point, size: Point, title: &str) {
        self.begin_root(size);
        self.view(from, size, title);
    }

    fn begin_root(&mut self, shown: Point) {
        self.out.push_str("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"");
        self.numbers(&[("width", shown.x), ("height", shown.y)]);
    }

    fn view(&mut self, from: Point, size: Point, title: &str) {
        self.out.push_str(" viewBox=\"");
        for value in [from.x, from.y, size.x] {
            write_number(&mut self.out, value);
            self.out.push(' ');
        }
        write_number(&mut self.out, size.y);
        self.out.push_str("\">\n<title>");
        write_escaped(&mut self.out, title);
        self.out.push_str("</title>\n");
    }

    /// A line of text that comes from elsewhere, with attributes that do not.
    pub(crate) fn text(&mut self, at: Point, text: &str, attributes: &str) {
        self.out.push_str("<text");
        self.numbers(&[("x", at.x), ("y", at.y)]);
        self.add(format_args!("{attributes}>"));
        write_escaped(&mut self.out, text);
        self.out.push_str("</text>\n");
    }

    /// One number.
    pub(crate) fn number(&mut self, value: f64) {
        write_number(&mut self.out, value);
    }

    /// Begins the tag of an element that can be used by name.
    pub(crate) fn begin(&mut self, element: &str, name: &str) {
        let prefix = &self.prefix;
        // A String takes whatever is written: the result says nothing.
        let _ = write!(self.out, "<{element} id=\"{prefix}{name}\"");
    }

    /// Begins a group whose middle lies there.
    pub(crate) fn begin_at(&mut self, at: Point) {
        self.out.push_str("<g transform=\"translate(");
        write_number(&mut self.out, at.x);
        self.out.push(' ');
        write_number(&mut self.out, at.y);
        self.out.push_str(")\">");
    }

    /// Uses a named group there.
    pub(crate) fn reference(&mut self, name: &str, at: Point, attributes: &str) {
        let prefix = &self.prefix;
        // A String takes whatever is written: the result says nothing.
        let _ = write!(self.out, "<use href=\"#{prefix}{name}\"{attributes}");
        self.numbers(&[("x", at.x), ("y", at.y)]);
        self.out.push_str("/>\n");
    }
}
