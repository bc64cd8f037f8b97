//! One suite, two stores: every test that is listed with `both!` runs over a file and over a server.

/// Runs each test on a new bench of either kind.
macro_rules! both {
    ($($name:ident),+ $(,)?) => {
        mod in_a_file {
            $(
                #[tokio::test(flavor = "multi_thread")]
                async fn $name() {
                    super::$name(crate::bench::Bench::new().await).await;
                }
            )+
        }

        mod on_a_server {
            $(
                #[tokio::test(flavor = "multi_thread")]
                #[ignore = "needs a PostgreSQL server: cargo xtask check runs it"]
                async fn $name() {
                    super::$name(crate::bench::Bench::on_a_server().await).await;
                }
            )+
        }
    };
}

pub(crate) use both;
