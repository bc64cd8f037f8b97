//! HTTPS of the bench's own: who is vouched for, for how long, and what it takes to be trusted.

use std::io::{Read as _, Write as _};
use std::net::{IpAddr, SocketAddr, TcpStream};
use std::process::Command;
use std::sync::mpsc;
use std::time::{Duration, Instant};

use axum::serve::Listener as _;
use jiff::Timestamp;
use tokio::net::TcpListener;
use web::{Authority, Lan, Sealed, Unsealed};

use crate::bench::Bench;

fn addresses(these: &[&str]) -> Vec<IpAddr> {
    these.iter().map(|one| one.parse().unwrap()).collect()
}

fn at(day: &str) -> Timestamp {
    format!("{day}T12:00:00Z").parse().unwrap()
}

#[test]
fn law_an_authority_is_the_same_when_read_again() {
    let made = Authority::make(&[]).unwrap();
    let read = Authority::read(&made.write()).unwrap();
    assert_eq!(read.fingerprint(), made.fingerprint());
    assert_eq!(read.certificate(), made.certificate());
    assert_eq!(read.write(), made.write());
    // 32 bytes in pairs of digits; another authority has another.
    let fingerprint = made.fingerprint();
    assert_eq!(
        fingerprint
            .split(':')
            .filter(|pair| pair.len() == 2)
            .count(),
        32
    );
    assert_ne!(Authority::make(&[]).unwrap().fingerprint(), fingerprint);
    assert!(!format!("{made:?}").contains("PRIVATE"));
    assert!(!made.certificate().contains("PRIVATE"));
    // What was signed before by the read one is trusted by devices that took the made one.
    read.server(&addresses(&["192.168.1.20"]), at("2026-12-01"))
        .unwrap();
}

#[test]
fn law_a_spoilt_file_is_no_authority() {
    let (one, two) = (Authority::make(&[]).unwrap(), Authority::make(&[]).unwrap());
    let text = one.write();
    let (certificate, key) = text.split_at(one.certificate().len());
    let other = two.write().split_off(two.certificate().len());
    for bad in [
        String::new(),
        "hello".to_owned(),
        certificate.to_owned(),
        key.to_owned(),
        format!("{certificate}{other}"),
        text[..text.len() - 60].to_owned(),
    ] {
        assert!(
            matches!(Authority::read(&bad), Err(Unsealed::NoAuthority)),
            "{bad}"
        );
    }
}

#[test]
fn law_it_vouches_for_local_addresses_in_its_time_only() {
    let authority = Authority::make(&addresses(&["198.51.100.7"])).unwrap();
    let server = |address: &str, day: &str| authority.server(&addresses(&[address]), at(day));
    for address in [
        "10.1.2.3",
        "172.31.0.1",
        "192.168.1.20",
        "169.254.3.4",
        "100.64.0.9",
        "fd00::2",
        "198.51.100.7",
    ] {
        server(address, "2026-12-01").unwrap();
        server(address, "2045-12-30").unwrap();
    }
    for address in [
        "198.51.100.8",
        "172.32.0.1",
        "8.8.8.8",
        "192.169.0.1",
        "2001:db8::1",
    ] {
        let refused = server(address, "2026-12-01").unwrap_err();
        assert!(
            matches!(refused, Unsealed::NotFor { .. }),
            "{address}: {refused}"
        );
    }
    for day in ["2025-12-30", "2046-01-02", "2060-06-01"] {
        let refused = server("192.168.1.20", day).unwrap_err();
        assert!(
            matches!(refused, Unsealed::NotFor { .. }),
            "{day}: {refused}"
        );
    }
}

/// The bench behind TLS on a port of its own, answering one line to whoever shakes hands.
fn answering(authority: &Authority, day: Timestamp) -> SocketAddr {
    let server = authority.server(&addresses(&["127.0.0.1"]), day).unwrap();
    let (tell, told) = mpsc::channel();
    std::thread::spawn(move || {
        let runtime = tokio::runtime::Runtime::new().unwrap();
        runtime.block_on(async {
            let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
            let mut sealed = Sealed::new(listener, server).unwrap();
            tell.send(sealed.local_addr().unwrap()).unwrap();
            loop {
                drop(sealed.accept().await);
            }
        });
    });
    told.recv().unwrap()
}

/// Python's ssl, which is OpenSSL, trusts what it should and nothing else.
#[test]
#[ignore = "needs Python: cargo xtask check runs it"]
fn outside_openssl_trusts_the_bench_by_its_authority_alone() {
    let python = std::env::var("PUMPWRIGHT_PYTHON").unwrap();
    let own = addresses(&["127.0.0.1"]);
    let (ours, another) = (
        Authority::make(&own).unwrap(),
        Authority::make(&own).unwrap(),
    );
    let folder = tempfile::tempdir().unwrap();
    let file = |name: &str, authority: &Authority| {
        let path = folder.path().join(name);
        std::fs::write(&path, authority.certificate()).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let (taken, foreign) = (file("ours", &ours), file("another", &another));
    let today = answering(&ours, Timestamp::now());
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/it/tls.py");
    let shake = |address: SocketAddr, authority: &str, name: &str, most: &str| {
        let port = address.port().to_string();
        let said = Command::new(&python)
            .args([script, &port, authority, name, most])
            .output()
            .unwrap();
        assert!(
            said.status.success(),
            "{}",
            String::from_utf8_lossy(&said.stderr)
        );
        String::from_utf8(said.stdout).unwrap().trim().to_owned()
    };
    assert_eq!(
        shake(today, &taken, "127.0.0.1", "TLSv1_3"),
        "trusted TLSv1.3"
    );
    assert_eq!(
        shake(today, &taken, "127.0.0.1", "TLSv1_2"),
        "trusted TLSv1.2"
    );
    for (authority, name, why) in [
        (taken.as_str(), "127.0.0.2", "IP address mismatch"),
        (&taken, "bench.local", "Hostname mismatch"),
        (&taken, "localhost", "Hostname mismatch"),
        (
            "none",
            "127.0.0.1",
            "unable to get local issuer certificate",
        ),
        (
            &foreign,
            "127.0.0.1",
            "unable to get local issuer certificate",
        ),
    ] {
        let said = shake(today, authority, name, "TLSv1_3");
        assert!(
            said.starts_with("refused") && said.contains(why),
            "{name}: {said}"
        );
    }
    // A certificate of days to come. One of days gone by cannot be made before the authority is older.
    let ahead = Timestamp::now() + jiff::SignedDuration::from_hours(24 * 500);
    let said = shake(answering(&ours, ahead), &taken, "127.0.0.1", "TLSv1_3");
    assert_eq!(said, "refused certificate is not yet valid");
    let old = shake(today, &taken, "127.0.0.1", "TLSv1_1");
    assert!(old.starts_with("failed"), "{old}");
}

/// Whoever connects and says nothing, or nothing sensible, keeps nobody waiting.
#[test]
fn law_a_silent_caller_blocks_nobody() {
    let authority = Authority::make(&addresses(&["127.0.0.1"])).unwrap();
    let address = answering(&authority, at("2026-12-01"));
    let mut silent: Vec<TcpStream> = (0..60)
        .map(|_| TcpStream::connect(address).unwrap())
        .collect();
    for stream in &mut silent[..30] {
        stream.write_all(b"GET / HTTP/1.1\r\n\r\n").unwrap();
    }
    let begun = Instant::now();
    let mut client = TcpStream::connect(address).unwrap();
    client
        .set_read_timeout(Some(Duration::from_secs(5)))
        .unwrap();
    client.write_all(&HELLO).unwrap();
    let mut first = [0; 6];
    client.read_exact(&mut first).unwrap();
    // A record of the handshake (22) with a `ServerHello` (2) comes back.
    assert_eq!((first[0], first[5]), (22, 2));
    assert!(begun.elapsed() < Duration::from_secs(5));
}

/// A `ClientHello` of TLS 1.2 (RFC 5246): random of zeros, ECDHE-ECDSA with AES-128-GCM, P-256, ECDSA with
/// SHA-256, extended master secret.
const HELLO: [u8; 83] = [
    22, 3, 1, 0, 78, 1, 0, 0, 74, 3, 3, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0,
    0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2, 192, 43, 1, 0, 0, 31, 0, 10, 0, 4, 0, 2, 0, 23, 0,
    11, 0, 2, 1, 0, 0, 13, 0, 4, 0, 2, 4, 3, 0, 23, 0, 0, 255, 1, 0, 1, 0,
];

const HOST: &str = "192.168.1.20:8157";

fn open() -> (Bench, std::sync::Arc<Lan>) {
    let authority = Authority::make(&[]).unwrap();
    let lan = Lan::new(addresses(&["192.168.1.20"]), 8157).sealed(8158, &authority);
    let (bench, lan) = Bench::start_for(lan);
    bench.ready();
    bench.calls_from("192.168.1.50");
    (bench, lan)
}

#[test]
fn law_the_plain_door_only_shows_the_way() {
    let (bench, lan) = open();
    assert_eq!(lan.links(), ["https://192.168.1.20:8158/"]);
    let host = [("host", HOST)];
    let page = bench.ask("GET", "/", &host, "");
    assert_eq!(page.status, 200);
    // In groups of four pairs, so that an eye can compare it.
    let pairs: Vec<&str> = lan.fingerprint().unwrap().split(':').collect();
    for group in pairs.chunks(4) {
        let group = format!("<strong>{}</strong>", group.join(":"));
        assert!(page.body.contains(&group), "{}", page.body);
    }
    assert!(page.body.contains("href=\"https://192.168.1.20:8158/\""));
    assert!(page.body.contains("href=\"/authority.crt\"") && !page.body.contains("Rescue sled"));
    let file = bench.ask("GET", "/authority.crt", &host, "");
    assert_eq!(file.headers["content-type"], "application/x-x509-ca-cert");
    assert!(file.body.starts_with("-----BEGIN CERTIFICATE-----") && !file.body.contains("PRIVATE"));
    for (method, path) in [
        ("GET", "/pair?number=123456"),
        ("GET", "/devices"),
        ("GET", "/job/rescue-sled-1-open/measure?at=A0"),
        ("POST", "/act/pair"),
        ("POST", "/act/pairing-number"),
        ("GET", "//evil.test/"),
    ] {
        let reply = bench.ask(method, path, &host, "number=123456&name=x");
        assert_eq!(reply.status, 303, "{method} {path}");
        assert_eq!(
            reply.headers["location"],
            format!("https://192.168.1.20:8158{path}")
        );
        assert!(!reply.headers.contains_key("set-cookie"));
    }
    // The machine itself works as it always did.
    bench.calls_from("127.0.0.1");
    assert!(bench.get("/").body.contains("Rescue sled 1"));
    assert!(
        bench
            .get("/devices")
            .body
            .contains("https://192.168.1.20:8158/")
    );
}

#[test]
fn law_a_session_of_one_door_is_worth_nothing_at_the_other() {
    let (plain, lan) = open();
    let bench = plain.sealed();
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let ticket = runtime.block_on(lan.ask()).unwrap();
    assert!(ticket.links[0].starts_with("https://192.168.1.20:8158/pair?number="));
    let body = format!("number={}&name=phone", ticket.digits);
    let origin = "https://192.168.1.20:8158";
    let host = ("host", "192.168.1.20:8158");
    assert_eq!(bench.ask("GET", "/", &[host], "").status, 403);
    let reply = bench.ask("POST", "/act/pair", &[host, ("origin", origin)], &body);
    assert_eq!(reply.status, 303, "{}", reply.body);
    let set = &reply.headers["set-cookie"];
    assert!(
        set.starts_with("__Host-session=") && set.ends_with("; Secure"),
        "{set}"
    );
    let token = &set["__Host-session=".len()..][..64];
    let with = |name: &str| format!("{name}={token}");
    let asks = |bench: &Bench, cookie: &str| bench.ask("GET", "/", &[host, ("cookie", cookie)], "");
    assert!(
        asks(&bench, &with("__Host-session"))
            .body
            .contains("Rescue sled 1")
    );
    assert_eq!(asks(&bench, &with("session")).status, 403);
    assert!(
        !asks(&plain, &with("__Host-session"))
            .body
            .contains("Rescue sled 1")
    );
}
