//! A bench to talk to, and the few lines of HTTP needed to do so.

use std::collections::BTreeMap;
use std::io::{self, Read, Write};
use std::net::{IpAddr, SocketAddr, TcpStream};
use std::sync::{Arc, Mutex, mpsc};
use std::thread;
use std::time::Duration;

use quantity::Unit;

use axum::serve::Listener;

use store::Store;
use tempfile::TempDir;
use tokio::sync::oneshot;
use web::Lan;
use workshop::act::{Act, Stamp};
use workshop::entry::{Body, EntryId, JobId};
use workshop::photos::{Photo, PhotoHash, Photography, Subject};
use workshop::plan::{Plan, Work};
use workshop::reading;

/// A running bench with an empty journal; it ends with the test process.
pub(crate) struct Bench {
    pub(crate) address: SocketAddr,
    /// Where every caller seems to come from; this machine where it is not set.
    caller: Arc<Mutex<Option<IpAddr>>>,
    folder: Arc<TempDir>,
    /// The door for HTTPS, here without its TLS, where there is one.
    sealed: Option<SocketAddr>,
    /// Closes it, and tells when it is closed.
    end: Mutex<Option<(oneshot::Sender<()>, mpsc::Receiver<()>)>>,
}

/// What came back.
#[derive(Debug)]
pub(crate) struct Reply {
    pub(crate) status: u16,
    pub(crate) headers: BTreeMap<String, String>,
    pub(crate) body: String,
}

/// A listener that says its callers come from where a test says.
struct Told {
    listener: tokio::net::TcpListener,
    caller: Arc<Mutex<Option<IpAddr>>>,
}

impl Listener for Told {
    type Io = tokio::net::TcpStream;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Self::Io, SocketAddr) {
        let (io, mut address) = Listener::accept(&mut self.listener).await;
        if let Some(caller) = *self.caller.lock().unwrap() {
            address.set_ip(caller);
        }
        (io, address)
    }

    fn local_addr(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }
}

impl Bench {
    pub(crate) fn start() -> Self {
        Self::open(None)
    }

    /// A bench that lets other devices in.
    pub(crate) fn start_for(lan: Lan) -> (Self, Arc<Lan>) {
        let lan = Arc::new(lan);
        (Self::open(Some(lan.clone())), lan)
    }

    /// The same bench through its door for HTTPS.
    pub(crate) fn sealed(&self) -> Self {
        Self {
            address: self.sealed.unwrap(),
            caller: self.caller.clone(),
            folder: self.folder.clone(),
            sealed: None,
            end: Mutex::default(),
        }
    }

    /// From now on every request comes from there.
    pub(crate) fn calls_from(&self, address: &str) {
        *self.caller.lock().unwrap() = Some(address.parse().unwrap());
    }

    fn open(lan: Option<Arc<Lan>>) -> Self {
        let folder = Arc::new(tempfile::tempdir().unwrap());
        let url = format!("sqlite:{}", folder.path().join("bench.sqlite").display());
        let (tell, told) = mpsc::channel();
        let (close, closed) = oneshot::channel::<()>();
        let (ended, end) = mpsc::channel();
        let caller = Arc::new(Mutex::new(None));
        let called = caller.clone();
        thread::spawn(move || {
            let runtime = tokio::runtime::Builder::new_multi_thread()
                .worker_threads(2)
                .enable_all()
                .build()
                .unwrap();
            runtime.block_on(async {
                let store = Store::open(&url).await.unwrap();
                let door = async || Told {
                    listener: tokio::net::TcpListener::bind("127.0.0.1:0").await.unwrap(),
                    caller: called.clone(),
                };
                let plain = door().await;
                let stop = async {
                    if closed.await.is_err() {
                        std::future::pending::<()>().await;
                    }
                };
                let address = plain.local_addr().unwrap();
                match lan {
                    Some(lan) if lan.fingerprint().is_some() => {
                        let sealed = door().await;
                        tell.send((address, sealed.local_addr().ok())).unwrap();
                        web::serve_sealed((plain, sealed), store, lan, stop).await
                    }
                    lan => {
                        tell.send((address, None)).unwrap();
                        web::serve(plain, store, lan, stop).await
                    }
                }
                .unwrap();
                let _ = ended.send(());
            });
        });
        let (address, sealed) = told.recv().unwrap();
        Self {
            address,
            caller,
            folder,
            sealed,
            end: Mutex::new(Some((close, end))),
        }
    }

    /// Closes the bench; whether it was closed within so long.
    pub(crate) fn closes(&mut self, within: Duration) -> bool {
        let (close, ended) = self.end.get_mut().unwrap().take().unwrap();
        close.send(()).unwrap();
        ended.recv_timeout(within).is_ok()
    }

    /// Asks for something that does not end, and gives the connection.
    pub(crate) fn hold(&self, path: &str, more: &str) -> TcpStream {
        let mut stream = TcpStream::connect(self.address).unwrap();
        let head = format!(
            "GET {path} HTTP/1.1\r\nhost: {}\r\n{more}\r\n",
            self.address
        );
        stream.write_all(head.as_bytes()).unwrap();
        stream
            .set_read_timeout(Some(Duration::from_secs(10)))
            .unwrap();
        stream
    }

    /// Puts a spot on record as another program on the same store does.
    pub(crate) fn beside(&self, job: &str, id: &str, spot: &str) {
        let spot = reading::read_spot(spot, 4).unwrap();
        let tries = reading::read("13-14", Unit::Thou).unwrap();
        let afresh = true;
        self.record(
            job,
            id,
            Body::LeavesTried {
                spot,
                tries,
                afresh,
            },
        );
    }

    /// Lays a plan, as a job file does.
    pub(crate) fn lay(&self, job: &str, plan: Plan) {
        self.record(job, "plan-1", Body::Work(Work::PlanLaid(plan)));
    }

    /// Says that the job has a photo, as a job file does that came without the picture.
    pub(crate) fn tell(&self, job: &str, photo: &str) {
        let photo = PhotoHash::new(photo).unwrap();
        let said = Photo {
            width: 10,
            height: 10,
            subject: Subject::Job,
            words: String::new(),
        };
        let taken = Photography::Taken { photo, said };
        self.record(job, "photo-1", Body::Photographed(taken));
    }

    fn record(&self, job: &str, id: &str, body: Body) {
        let url = format!(
            "sqlite:{}",
            self.folder.path().join("bench.sqlite").display()
        );
        let stamp = Stamp {
            id: EntryId::new(id).unwrap(),
            now: "2025-05-09T14:00:00+02:00[Europe/Berlin]".parse().unwrap(),
            device: "command line".into(),
            who: String::new(),
            seen: None,
        };
        let act = Act::Record(body);
        let runtime = tokio::runtime::Runtime::new().unwrap();
        runtime.block_on(async {
            let store = Store::open(&url).await.unwrap();
            let job = JobId::new(job).unwrap();
            let now = stamp.now.timestamp();
            store.act(&job, act, stamp, now).await.unwrap();
            store.close().await;
        });
    }

    /// Sends a request; `more` are header lines that come instead of, or beside, the usual ones.
    pub(crate) fn ask(&self, method: &str, path: &str, more: &[(&str, &str)], body: &str) -> Reply {
        let mut headers = BTreeMap::from([
            ("host".to_owned(), self.address.to_string()),
            ("connection".to_owned(), "close".to_owned()),
            ("content-length".to_owned(), body.len().to_string()),
            (
                "content-type".to_owned(),
                "application/x-www-form-urlencoded".to_owned(),
            ),
        ]);
        headers.extend(
            more.iter()
                .map(|(name, value)| ((*name).to_owned(), (*value).to_owned())),
        );
        let lines: Vec<String> = headers
            .iter()
            .map(|(n, v)| format!("{n}: {v}\r\n"))
            .collect();
        let mut stream = TcpStream::connect(self.address).unwrap();
        stream
            .write_all(format!("{method} {path} HTTP/1.1\r\n{}\r\n", lines.concat()).as_bytes())
            .unwrap();
        // A refused body may be cut off by the other side.
        let _ = stream.write_all(body.as_bytes());
        let mut text = Vec::new();
        let _ = stream.read_to_end(&mut text);
        reply(&String::from_utf8_lossy(&text))
    }

    pub(crate) fn get(&self, path: &str) -> Reply {
        self.ask("GET", path, &[], "")
    }

    pub(crate) fn post(&self, path: &str, fields: &[(&str, &str)]) -> Reply {
        let pairs = fields
            .iter()
            .map(|(key, value)| format!("{key}={}", encode(value)));
        self.ask("POST", path, &[], &pairs.collect::<Vec<_>>().join("&"))
    }

    /// Sends a form from a page of a job, and gives what came back.
    pub(crate) fn send(
        &self,
        (job, page): (&str, &str),
        (form, id): (&str, &str),
        fields: &[(&str, &str)],
    ) -> Reply {
        let back = format!("{job}/{page}");
        let own = [("id", id), ("back", back.as_str())];
        self.post(&format!("{job}/act/{form}"), &[&own[..], fields].concat())
    }

    /// The page after a form that is taken.
    pub(crate) fn kept(
        &self,
        at: (&str, &str),
        form: (&str, &str),
        fields: &[(&str, &str)],
    ) -> String {
        let reply = self.send(at, form, fields);
        assert_eq!(reply.status, 303, "{}", reply.body);
        let page = format!("{}/{}", at.0, at.1);
        assert_eq!(reply.headers["location"], page);
        self.get(&page).body
    }

    /// Opens a job and describes pump, leaves and limits; gives the job's path.
    pub(crate) fn ready(&self) -> String {
        let opened = self.post(
            "/act/open",
            &[("id", "open-1"), ("title", "Rescue sled 1"), ("note", "")],
        );
        assert_eq!(opened.status, 303, "{}", opened.body);
        let job = opened.headers["location"]
            .trim_end_matches("/measure")
            .to_owned();
        for (form, fields) in [
            ("pump", &PUMP[..]),
            ("leaves", &LEAVES[..]),
            ("limits", &LIMITS[..]),
        ] {
            let id = format!("{form}-1");
            let fields: Vec<_> = [("id", id.as_str())]
                .iter()
                .chain(fields)
                .copied()
                .collect();
            let reply = self.post(&format!("{job}/act/{form}"), &fields);
            assert_eq!(reply.status, 303, "{form}: {}", reply.body);
        }
        job
    }
}

pub(crate) const PUMP: [(&str, &str); 5] = [
    ("blades", "2"),
    ("positions", "4"),
    ("bore", "140"),
    ("view", "looking-forward"),
    ("rotation", "clockwise"),
];
pub(crate) const LEAVES: [(&str, &str); 7] = [
    ("unit", "thou"),
    ("thicknesses", "12 13 14 15 16"),
    ("width", "12.7"),
    ("lead", "round-ring"),
    ("posture", "bench-shaft-level"),
    ("tolerance", ""),
    ("feel", ""),
];
pub(crate) const LIMITS: [(&str, &str); 4] = [
    ("least", "12"),
    ("greatest", "16"),
    ("measure", "radial"),
    ("page", "5-14"),
];

fn encode(text: &str) -> String {
    let bytes: Vec<String> = text.bytes().map(|byte| format!("%{byte:02x}")).collect();
    bytes.concat()
}

fn reply(text: &str) -> Reply {
    let (head, body) = text.split_once("\r\n\r\n").unwrap_or((text, ""));
    let mut lines = head.lines();
    let status = lines
        .next()
        .and_then(|line| line.split(' ').nth(1))
        .and_then(|s| s.parse().ok());
    let headers = lines.filter_map(|line| line.split_once(": "));
    Reply {
        status: status.unwrap_or(0),
        headers: headers
            .map(|(n, v)| (n.to_ascii_lowercase(), v.to_owned()))
            .collect(),
        body: body.to_owned(),
    }
}
