use super::{Prescription, READY};

#[test]
fn every_ready_prescription_is_read_and_needs_no_unlock() {
    let names: Vec<&str> = Prescription::ready_names().collect();
    assert_eq!(names, ["gentle", "typical"], "the default first");
    for (name, text) in READY {
        let prescription = Prescription::read(name, text.as_bytes()).unwrap();
        assert!(prescription.unlocks().is_empty(), "{name}");
        assert!(prescription.drills()[0].drill().is_warm_up(), "{name}");
        assert_eq!(Prescription::ready(name).unwrap().digest(), prescription.digest(), "{name}");
        assert!(prescription.drills().iter().all(|plan| plan.line() > 0), "{name} brings its own warm-up");
    }
    let on_disk =
        std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/presets/prescriptions")).unwrap().count();
    assert_eq!(on_disk, READY.len(), "a file that is not listed is not built in");
}
