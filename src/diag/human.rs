//! Findings for people.
