//! Tests that look at the whole house; there is nothing to use here.
