//! The Rust example of the README is this program, and it runs. Those in other languages run in
//! `tests/consumers/agree.py`.

mod shared;

mod example {
    include!("consumers/readme.rs");

    pub fn run() -> Result<(), BundleError> {
        main()
    }
}

#[test]
fn the_example_runs_on_the_demo_bundle() {
    let readme = std::fs::read_to_string(shared::tests("../README.md")).expect("there");
    let program = std::fs::read_to_string(shared::tests("consumers/readme.rs")).expect("there");
    assert!(readme.contains(&format!("```rust\n{program}```")), "the README shows another program");
    let examined = shared::examine(shared::read(&shared::tests("../specs")));
    let tree =
        baybook::emit::bundle::bundle(examined.checked.expect("no errors").model()).expect("made").tree;
    let dir = tempfile::tempdir().expect("made");
    baybook::emit::disk::write(&tree, &dir.path().join("public")).expect("written");
    // The only test of its process: nothing else minds where it stands.
    std::env::set_current_dir(dir.path()).expect("gone there");
    example::run().expect("it answers");
    std::env::set_current_dir(shared::tests("..")).expect("back again");
}
