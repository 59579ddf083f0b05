//! What the tests of the whole house share: the compiled tree-sitter parser of the notation.

use tree_sitter_language::LanguageFn;

unsafe extern "C" {
    fn tree_sitter_knotwright() -> *const ();
}

/// The tree-sitter grammar of the notation.
pub fn language() -> LanguageFn {
    // Safety: tree-sitter's own generator wrote the function for this purpose.
    unsafe { LanguageFn::from_raw(tree_sitter_knotwright) }
}
