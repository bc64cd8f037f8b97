//! What is particular to a store in a file.

use ::store::Store;

use crate::bench::url;

#[tokio::test]
async fn law_what_is_no_database_is_refused_and_stays() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("store.sqlite");
    let letter = "Dear Sir or Madam, ".repeat(100);
    std::fs::write(&file, &letter).unwrap();
    let refused = Store::open(&url(&folder)).await.unwrap_err();
    assert_eq!(
        refused.to_string(),
        "The store cannot be read or written. Check that the file is there, that it may be \
         written, and that the disk has room; then try again."
    );
    assert_eq!(std::fs::read_to_string(&file).unwrap(), letter);
}
