//! The structure of a file: its lines, its blocks, and what to do where they are broken.
//!
//! How it goes: one pass over the tokens, with the open blocks on a stack ([`reader`]), so that no depth of text is a depth of
//! calls. A line is gathered first, over its run-ons and `then` lines ([`line`]). Its first word and the block that it
//! is in say what may be read; [`syntax`](crate::syntax) reads it, or says why not ([`statement`]). A statement that
//! does not parse stays in the tree as broken, with its block, and what follows is read as if it had parsed: each line
//! begins with a word that says what it is, so that a mistake costs its own line and no other.
//!
//! Braces are the one thing that a mistake in one line could break for all. They are counted before anything else is read
//! ([`balance`]), and where all find their partners, indentation means nothing. Only after the first `{` that is never
//! closed, and before a `}` too many, does the indentation of a line say which blocks it is still in ([`closing`]).
//!
//! What was tried: asking also the spaces between words, which made two texts that differ in nothing else differ in
//! their problems; asking the indentation at every token, and looking through all braces for the one too many, both of
//! which took a time that grew with the square of the text. Of a broken statement all slips were reported at first;
//! most followed from the first one, so only that is kept.

mod balance;
mod chart;
mod closing;
mod frame;
mod line;
mod part;
mod place;
mod reader;
mod statement;

pub(crate) use part::{BlockPart, read_part};
pub(crate) use reader::{Read, read};
