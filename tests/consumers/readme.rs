use baybook::bundle::{Bundle, BundleError};

fn main() -> Result<(), BundleError> {
    let bundle = Bundle::read("public".as_ref())?;
    // An id that was moved leads to the build it is now.
    let (engine, build) = bundle.build("ox-887~sb-21-09").expect("it moved");
    for spec in build.of("lash.exhaust") {
        println!("{} {:?} {:?}", engine.title, spec.place, spec.window.as_ref().map(|window| &window.printed));
    }
    Ok(())
}
