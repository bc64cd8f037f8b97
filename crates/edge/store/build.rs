//! Builds anew when a migration is added; `sqlx::migrate!` alone would not notice.

fn main() {
    println!("cargo:rerun-if-changed=migrations");
}
