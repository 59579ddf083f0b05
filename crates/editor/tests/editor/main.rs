//! What an editor is told, on small texts with the cursor marked by `‸`, and on all sample patterns.

mod actions;
mod broken;
mod completion;
mod hover;
mod names;
mod outline;
mod signature;
mod support;
