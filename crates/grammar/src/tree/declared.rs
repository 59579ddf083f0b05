//! How statements are declared: once, next to the type of each. All that the rest of the program asks of a statement
//! without looking into it follows from here: which first word is read as what, what may stand where, how a tree moves
//! along with an edit, which names, numbers, texts and blocks a statement has, what completion offers.

use super::{Block, Broken, Chart, Child, Field, Node, Statement, Swatch};
use crate::words::Word;

/// Where a statement stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Zone {
    /// The top of the file.
    Top,
    /// `opening`, `set`, `closing`, motifs and all blocks in them.
    Body,
    /// `colorway`: threads.
    Colorway,
    /// `gauge`: its three lines.
    Gauge,
    /// `begin`, `finish` and `split` in them: what the ends are made of.
    Ends,
    /// `rows`: the lines of a chart.
    Rows,
    /// `leader`: the lines of a chart.
    Leader,
    /// `face`: the lines of a chart.
    Face,
    /// The block of a statement that is not known: anything may be there.
    Any,
}

impl Zone {
    /// Whether the lines there are those of a chart.
    pub fn is_chart(self) -> bool {
        matches!(self, Self::Rows | Self::Leader | Self::Face)
    }
}

/// What a statement is, before one is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Declaration {
    /// The word it begins with, its form and its help.
    pub word: Word,
    /// Where it may stand.
    pub stands: &'static [Zone],
    /// Whether it may stand once in a file.
    pub is_single: bool,
    /// What its braces hold; `None` if it has none.
    pub holds: Option<Zone>,
    /// How one is begun. What is in `${1:...}` is an example to be written over, `$0` is where the writer goes on.
    pub begun: &'static str,
}

impl Declaration {
    /// Whether it may be in `zone`.
    pub fn may_stand(&self, zone: Zone) -> bool {
        zone == Zone::Any || self.stands.contains(&zone)
    }
}

/// What one statement says: the type of one variant of [`Head`](super::Head), [`Body`](super::Body) or
/// [`EndPiece`](super::EndPiece), a [`Swatch`] or a [`Broken`] statement.
pub trait Said {
    /// What the node says, if it says this.
    fn of(node: &Node) -> Option<&Self>;
}

/// A statement with a word of its own.
pub trait Declared: Said {
    /// The word it begins with.
    const WORD: &'static str;
    /// All that is to be known of it.
    const DECLARATION: Declaration;
}

impl Said for Swatch {
    fn of(node: &Node) -> Option<&Self> {
        if let Node::Swatch(swatch) = node { Some(swatch) } else { None }
    }
}

impl Said for Broken {
    fn of(node: &Node) -> Option<&Self> {
        if let Node::Broken(broken) = node { Some(broken) } else { None }
    }
}

impl Node {
    /// What it says, if it says that: `node.get::<Take>()`.
    pub fn get<S: Said>(&self) -> Option<&S> {
        S::of(self)
    }

    /// Whether it is a statement of that kind: `node.is::<Take>()`.
    pub fn is<S: Said>(&self) -> bool {
        S::of(self).is_some()
    }

    /// How it is declared; `None` for one line of a gauge and for what does not parse.
    pub fn declaration(&self) -> Option<&'static Declaration> {
        match self {
            Self::Head(head) => Some(head.declaration()),
            Self::Body(body) => Some(body.declaration()),
            Self::EndPiece(piece) => Some(piece.declaration()),
            Self::Swatch(_) | Self::Broken(_) => None,
        }
    }

    /// The word it begins with; `None` for one line of a gauge and for what does not parse.
    pub fn word(&self) -> Option<&'static str> {
        self.declaration().map(|declaration| declaration.word.text)
    }

    /// All that it is made of, in the order it stands, blocks and charts last; not what is in its block.
    pub fn children<'t>(&'t self, visit: &mut impl FnMut(Child<'t>)) {
        match self {
            Self::Head(head) => head.visit_children(visit),
            Self::Body(body) => body.visit_children(visit),
            Self::EndPiece(piece) => piece.visit_children(visit),
            Self::Swatch(_) => {}
            Self::Broken(broken) => broken.block.iter().for_each(|block| visit(Child::Block(block))),
        }
    }

    /// The statements in its braces; `None` for a statement without, and for a chart.
    pub fn block(&self) -> Option<&Block> {
        Field::block(self)
    }

    /// As [`block`](Self::block), to be changed.
    pub fn block_mut(&mut self) -> Option<&mut Block> {
        Field::block_mut(self)
    }

    /// The chart in its braces, if it has one.
    pub fn chart(&self) -> Option<&Chart> {
        Field::chart(self)
    }

    /// As [`chart`](Self::chart), to be changed.
    pub(crate) fn chart_mut(&mut self) -> Option<&mut Chart> {
        Field::chart_mut(self)
    }
}

impl Statement {
    /// What it says, if it says that: `statement.get::<Take>()`.
    pub fn get<S: Said>(&self) -> Option<&S> {
        S::of(&self.node)
    }

    /// Whether it is a statement of that kind: `statement.is::<Take>()`.
    pub fn is<S: Said>(&self) -> bool {
        S::of(&self.node).is_some()
    }
}

/// A closed enum of statements. The type of each variant is declared by [`declare`] next to it.
macro_rules! closed {
    ($(#[$about:meta])* pub enum $name:ident { $($variant:ident($type:ident),)+ }) => {
        $(#[$about])*
        #[derive(Debug, Clone, PartialEq)]
        pub enum $name {
            $(#[doc = concat!("See [`", stringify!($type), "`].")] $variant($type),)+
        }

        impl $name {
            /// Every one of them, in the order in which they are offered.
            pub const ALL: &'static [Declaration] = &[$(<$type as Declared>::DECLARATION,)+];

            /// How it is declared.
            pub fn declaration(&self) -> &'static Declaration {
                match self {
                    $(Self::$variant(_) => &<$type as Declared>::DECLARATION,)+
                }
            }

            /// How the statement is declared that begins with `word`, if it is one of these.
            pub(crate) fn begun_by(word: &str) -> Option<&'static Declaration> {
                match word {
                    $(<$type as Declared>::WORD => Some(&<$type as Declared>::DECLARATION),)+
                    _ => None,
                }
            }

            /// The word it begins with.
            pub fn word(&self) -> &'static str {
                self.declaration().word.text
            }

            pub(crate) fn visit_children<'t>(&'t self, visit: &mut impl FnMut(Child<'t>)) {
                match self {
                    $(Self::$variant(said) => said.visit_children(visit),)+
                }
            }

            /// Reads the statement that begins with `word`, if it is one of these.
            pub(crate) fn read<'t, F: Fault<'t>>(word: &str, tokens: In<'t>) -> Option<Result<Node, F>> {
                Some(match word {
                    $(<$type as Declared>::WORD => written::<$type, F>(tokens).map(Node::from),)+
                    _ => return None,
                })
            }
        }

        impl Field for $name {
            fn shift(&mut self, by: i32) {
                match self {
                    $(Self::$variant(said) => said.shift(by),)+
                }
            }

            fn block(&self) -> Option<&Block> {
                match self {
                    $(Self::$variant(said) => said.block(),)+
                }
            }

            fn block_mut(&mut self) -> Option<&mut Block> {
                match self {
                    $(Self::$variant(said) => said.block_mut(),)+
                }
            }

            fn chart(&self) -> Option<&Chart> {
                match self {
                    $(Self::$variant(said) => said.chart(),)+
                }
            }

            fn chart_mut(&mut self) -> Option<&mut Chart> {
                match self {
                    $(Self::$variant(said) => said.chart_mut(),)+
                }
            }
        }

        $(
            impl Said for $type {
                fn of(node: &Node) -> Option<&Self> {
                    if let Node::$name($name::$variant(said)) = node { Some(said) } else { None }
                }
            }

            impl From<$type> for Node {
                fn from(said: $type) -> Self {
                    Self::$name($name::$variant(said))
                }
            }
        )+
    };
}

/// Declares one statement: `Head`, `Body` or `EndPiece`, its type, its word. The last line lists its fields, each with what it
/// is (a function of [`roles`](super::roles)); a field that is left out does not compile.
macro_rules! declare {
    ($kind:ident $type:ident $word:literal {
        form: $form:expr,
        help: $help:expr,
        begun: $begun:expr,
        stands: [$($zone:ident),+],
        $(single: $single:tt,)?
        $(holds: $holds:ident,)?
        $(made_of: { $($field:ident: $role:ident($($what:expr)?)),* $(,)? },)?
    }) => {
        impl Declared for $type {
            const WORD: &'static str = $word;
            const DECLARATION: Declaration = Declaration {
                word: Word { text: $word, role: Role::$kind, form: $form, help: $help },
                stands: &[$(Zone::$zone),+],
                is_single: declare!(@single $($single)?),
                holds: declare!(@holds $($holds)?),
                begun: $begun,
            };
        }

        $(
            impl $type {
                #[allow(unused_variables)]
                pub(crate) fn visit_children<'t>(&'t self, visit: &mut impl FnMut(Child<'t>)) {
                    let Self { $($field),* } = self;
                    $(roles::$role($field, $($what,)? visit);)*
                }
            }

            fields! { $type { $($field),* } }
        )?
    };
    (@single) => { false };
    (@single true) => { true };
    (@holds) => { None };
    (@holds $zone:ident) => { Some(Zone::$zone) };
}

pub(super) use {closed, declare};
