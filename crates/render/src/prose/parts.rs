//! Opening, set and closing in words.

use super::act::Act;
use super::document::{ProseBlock, ProseDocument};
use super::items::{Item, ItemReader, are_alike, repeat_items};
use super::tell::Teller;
use super::words::fill_in;
use super::{CountFrom, Order, ProseOptions, rows};
use crate::script::Different;
use crate::{Event, Passage};
use knotwright_numbers::ToNumber;

pub(super) struct ProseParts<'a> {
    pub(super) teller: &'a Teller<'a>,
    pub(super) options: &'a ProseOptions,
}

impl ProseParts<'_> {
    pub(super) fn tell(&self, document: &mut ProseDocument) {
        let (script, words) = (self.teller.script, self.teller.words);
        if let Some(opening) = &script.opening {
            document.push(ProseBlock::Heading(2, words.opening.into()));
            self.body(&self.items(opening, &script.strands), document);
        }
        if script.times > 0 {
            document.push(ProseBlock::Heading(2, words.set.into()));
            self.sets(document);
        }
        if let Some(closing) = &script.closing {
            document.push(ProseBlock::Heading(2, words.closing.into()));
            self.body(&self.items(closing, &script.threads_before_closing()), document);
        }
    }

    fn items(&self, passage: &Passage, threads: &[u16]) -> Vec<Item> {
        match self.options.order {
            _ if passage.wish.is_some() => {
                let note = |event: &Event| match event {
                    Event::Note(text) => Some(Item::Note(text.clone())),
                    _ => None,
                };
                let notes = passage.events.iter().filter_map(note);
                notes.chain([Item::Wish(passage.wished_rows())]).collect()
            }
            Order::Steps => ItemReader { counting: self.options.counting() }.items(passage, threads),
            Order::Rows => rows::list_items(passage, threads, self.options.counting()),
        }
    }

    fn sets(&self, document: &mut ProseDocument) {
        let (script, words) = (self.teller.script, self.teller.words);
        let different = script.different();
        let bodies: Vec<Vec<Item>> =
            different.sets.iter().zip(&different.hangs).map(|(set, hang)| self.items(set, hang)).collect();
        let (count, times) = (self.teller.number(script.times), (words.times)(script.times));
        let digits = script.times.to_string();
        let sentence = if script.times == 1 { words.set_once } else { words.set_times };
        document.text(fill_in(sentence, &[("count", &count), ("digits", &digits), ("times", &times)]));
        let is_one =
            bodies.iter().skip(1).all(|body| bodies.first().is_some_and(|first| are_alike(first, body)));
        if !is_one {
            return self.sets_apart(&different, &bodies, document);
        }
        if bodies.len() > 1 {
            document.text(words.set_colors);
        }
        match repeat_items(bodies, 2) {
            Some(Item::Repeat { body, .. }) => self.body(&body, document),
            Some(Item::Do(mut deed)) => {
                deed.times = 1;
                self.body(&[Item::Do(deed)], document);
            }
            _ => document.text(words.nothing_tied),
        }
        let closes = different.hangs.last() == different.hangs.first();
        let is_tied = different.sets.iter().all(|set| set.wish.is_none());
        if closes && is_tied && different.sets.len() == 1 && script.times > 1 {
            document.text(words.check_as_begun);
        }
        if different.sets.len() > 1 {
            let after = match self.options.counting() {
                CountFrom::AsWritten => words.check_after,
                CountFrom::FromRight => words.check_after_from_right,
            };
            let looks = different.hangs.iter().skip(1).enumerate().map(|(number, hang)| {
                let strands = self.teller.hanging(hang);
                fill_in(after, &[("number", &(number + 1).to_string()), ("strands", &strands)])
            });
            document.push(ProseBlock::List(looks.collect()));
        }
    }

    /// Sets that go different ways, one after another.
    fn sets_apart(&self, different: &Different<'_>, bodies: &[Vec<Item>], document: &mut ProseDocument) {
        let words = self.teller.words;
        for (number, body) in bodies.iter().enumerate() {
            document.push(ProseBlock::Heading(
                3,
                fill_in(words.set_number, &[("number", &(number + 1).to_string())]),
            ));
            self.body(body, document);
        }
        if self.teller.script.times > bodies.len().to_u64() {
            let (first, last) = ((different.comes_again + 1).to_string(), bodies.len().to_string());
            document.text(fill_in(words.sets_go_on, &[("first", &first), ("last", &last)]));
        }
    }

    fn body(&self, items: &[Item], document: &mut ProseDocument) {
        let mut writer = BodyWriter {
            teller: self.teller,
            document,
            numbers: vec![0],
            by_rows: self.options.order == Order::Rows,
        };
        writer.items(items);
    }
}

struct BodyWriter<'a> {
    teller: &'a Teller<'a>,
    document: &'a mut ProseDocument,
    /// By depth, the number of the last step.
    numbers: Vec<u64>,
    /// Only rows are numbered.
    by_rows: bool,
}

impl BodyWriter<'_> {
    fn items(&mut self, items: &[Item]) {
        items.iter().for_each(|item| self.item(item));
    }

    fn item(&mut self, item: &Item) {
        let words = self.teller.words;
        match item {
            Item::Section { title, body } => {
                self.section(title);
                self.items(body);
            }
            Item::Wish(rows) => {
                self.document.text(words.wish);
                self.document.text(words.wish_seen);
                let rows = (1_u64..).zip(rows).map(|(number, row)| self.teller.wished_row(number, row));
                self.document.push(ProseBlock::List(rows.collect()));
            }
            Item::Note(text) => self.aside(fill_in(words.note, &[("text", text)]), true),
            Item::Do(deed) if self.by_rows && matches!(deed.act, Act::Thread { .. }) => {
                self.aside(self.teller.deed(deed), true);
            }
            Item::Do(deed) => self.step(self.teller.deed(deed)),
            Item::Join(join) if join.is_step => self.step(self.teller.join(join)),
            Item::Join(join) => self.aside(self.teller.join(join), true),
            Item::Row { number, knots } => {
                let groups = self.teller.groups(knots);
                let text =
                    fill_in(words.numbered_row, &[("number", &number.to_string()), ("groups", &groups)]);
                self.step(text);
            }
            Item::Repeat { times, body } => {
                let (count, digits) = (self.teller.number(*times), times.to_string());
                let said = (words.times)(*times);
                let values = [("count", count.as_str()), ("digits", &digits), ("times", &said)];
                self.step(fill_in(words.repeat.of(*times), &values));
                self.deeper(body);
            }
            Item::Passes(bodies) => {
                let count = bodies.len().to_string();
                for (number, body) in bodies.iter().enumerate() {
                    let number = (number + 1).to_string();
                    self.step(fill_in(words.pass, &[("number", &number), ("count", &count)]));
                    self.deeper(body);
                }
            }
            Item::Look(Some(threads)) => self.aside(self.teller.look(threads), false),
            Item::Look(None) => {}
        }
    }

    fn section(&mut self, title: &str) {
        if self.depth() == 0 {
            self.document.push(ProseBlock::Heading(3, title.to_owned()));
        } else {
            self.aside(title.to_owned(), true);
        }
    }

    fn deeper(&mut self, body: &[Item]) {
        self.numbers.push(0);
        self.items(body);
        self.numbers.pop();
    }

    fn depth(&self) -> usize {
        self.numbers.len() - 1
    }

    fn step(&mut self, text: String) {
        let depth = self.depth();
        let Some(number) = self.numbers.last_mut() else { return };
        *number += 1;
        let number = *number;
        self.document.push(ProseBlock::Step { depth, number, text });
    }

    fn aside(&mut self, text: String, loud: bool) {
        let depth = self.depth();
        self.document.push(ProseBlock::Aside { depth, text, loud });
    }
}
