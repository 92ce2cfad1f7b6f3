//! A hub that listens, and requests to it over real connections.
// Each test file uses a part of it.
#![allow(dead_code)]

use provenohm_hub::{CONNECTIONS, Hub, Options};
use serde_json::{Value, json};
use std::net::SocketAddr;
use std::path::Path;
use tempfile::TempDir;
use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _};
use tokio::net::TcpStream;
use tokio::sync::oneshot;
use tokio::task::JoinHandle;

pub(crate) const PASSWORD: &str = "correct horse";

pub(crate) fn options(record: &Path, listen: SocketAddr) -> Options {
    Options {
        record: record.to_owned(),
        listen,
        certificate: None,
        names: Vec::new(),
        store: None,
        connections: CONNECTIONS,
    }
}

pub(crate) struct Running {
    record: TempDir,
    pub(crate) address: SocketAddr,
    pub(crate) first: Option<String>,
    end: oneshot::Sender<()>,
    ended: JoinHandle<()>,
}

pub(crate) struct Answer {
    pub(crate) status: u16,
    pub(crate) headers: String,
    pub(crate) body: String,
}

impl Answer {
    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.body).unwrap_or_else(|_| panic!("{}", self.body))
    }

    pub(crate) fn code(&self) -> String {
        self.json()["code"].as_str().unwrap().to_owned()
    }

    pub(crate) fn header(&self, name: &str) -> Option<&str> {
        let lines = self.headers.lines().filter_map(|line| line.split_once(": "));
        lines.filter(|(one, _)| one.eq_ignore_ascii_case(name)).map(|(_, value)| value).next()
    }
}

impl Running {
    pub(crate) async fn start() -> Self {
        Self::over(TempDir::new().unwrap()).await
    }

    pub(crate) async fn over(record: TempDir) -> Self {
        Self::over_store(record, None).await
    }

    /// An instance over a database, `postgres://…`; nothing: the store beside the record.
    pub(crate) async fn over_store(record: TempDir, store: Option<&str>) -> Self {
        let listen = "127.0.0.1:0".parse().unwrap();
        let options = Options { store: store.map(str::to_owned), ..options(record.path(), listen) };
        Self::serve(record, options).await
    }

    /// With room for so many connections at once.
    pub(crate) async fn with_room_for(connections: usize) -> Self {
        let record = TempDir::new().unwrap();
        let options = Options { connections, ..options(record.path(), "127.0.0.1:0".parse().unwrap()) };
        Self::serve(record, options).await
    }

    async fn serve(record: TempDir, options: Options) -> Self {
        let hub = Hub::bind(&options).await.unwrap();
        let (address, first) = (hub.address(), hub.first_link().map(str::to_owned));
        let (end, asked) = oneshot::channel();
        let over = async move { drop(asked.await) };
        let ended = tokio::spawn(async move { hub.run(over).await });
        Self { record, address, first, end, ended }
    }

    pub(crate) fn record(&self) -> &Path {
        self.record.path()
    }

    pub(crate) async fn end(self) -> TempDir {
        self.end.send(()).unwrap();
        self.ended.await.unwrap();
        self.record
    }

    /// A request as these bytes, the answer when the hub closes the connection.
    pub(crate) async fn raw(&self, request: String) -> Answer {
        let mut stream = TcpStream::connect(self.address).await.unwrap();
        stream.write_all(request.as_bytes()).await.unwrap();
        let mut told = Vec::new();
        stream.read_to_end(&mut told).await.unwrap();
        let told = String::from_utf8_lossy(&told).into_owned();
        let (headers, body) = told.split_once("\r\n\r\n").unwrap_or_else(|| panic!("{told}"));
        let status = headers.split(' ').nth(1).unwrap().parse().unwrap();
        Answer { status, headers: headers.to_owned(), body: body.to_owned() }
    }

    /// A request with any bytes, and the bytes it is answered with.
    pub(crate) async fn bytes(&self, path: &str, headers: &str, body: &[u8]) -> (u16, Vec<u8>) {
        let (host, length) = (self.address, body.len());
        let head = format!(
            "POST {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n"
        );
        let mut stream = TcpStream::connect(host).await.unwrap();
        // Refused before all of it was read, the rest cannot be sent.
        drop(stream.write_all(&[head.as_bytes(), body].concat()).await);
        let mut told = Vec::new();
        stream.read_to_end(&mut told).await.unwrap();
        let end = told.windows(4).position(|four| four == b"\r\n\r\n").unwrap();
        let status = String::from_utf8_lossy(&told[..end]).split(' ').nth(1).unwrap().parse().unwrap();
        (status, told.split_off(end + 4))
    }

    pub(crate) async fn get(&self, path: &str) -> Answer {
        self.raw(format!("GET {path} HTTP/1.1\r\nHost: {}\r\nConnection: close\r\n\r\n", self.address)).await
    }

    /// A request of any method.
    pub(crate) async fn asked(&self, method: &str, path: &str, headers: &str, body: &str) -> Answer {
        let (host, length) = (self.address, body.len());
        self.raw(format!(
            "{method} {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n{body}"
        ))
        .await
    }

    pub(crate) async fn post(&self, path: &str, headers: &str, body: &Value) -> Answer {
        self.posted(&self.address.to_string(), path, headers, &body.to_string()).await
    }

    pub(crate) async fn posted(&self, host: &str, path: &str, headers: &str, body: &str) -> Answer {
        let length = body.len();
        self.raw(format!(
            "POST {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n{body}"
        ))
        .await
    }

    pub(crate) fn code(&self) -> String {
        self.first.as_ref().unwrap().rsplit('/').next().unwrap().to_owned()
    }

    /// Sets the first password of the office; the headers of the session it opens.
    pub(crate) async fn first(&self) -> String {
        let asked = json!({ "code": self.code(), "name": "A. Office", "password": PASSWORD });
        headers_of(&self.post("/first", "", &asked).await)
    }

    /// An operation at somebody's seat, which must succeed.
    pub(crate) async fn ask(&self, session: &str, operation: &str, input: Value) -> Value {
        let told = self.post("/call", session, &json!({ "operation": operation, "input": input })).await;
        assert_eq!(told.status, 200, "{operation}: {}", told.body);
        told.json()
    }

    /// Somebody whom the office lets in: the headers of their session.
    pub(crate) async fn joined(&self, office: &str, name: &str, role: &str) -> String {
        let told = self.post("/people/invite", office, &json!({ "name": name, "role": role })).await;
        assert_eq!(told.status, 200, "{}", told.body);
        let asked = json!({ "code": told.json()["code"], "name": "", "password": PASSWORD });
        headers_of(&self.post("/first", "", &asked).await)
    }

    pub(crate) async fn log_in(&self, name: &str, password: &str) -> Answer {
        self.post("/login", "", &json!({ "name": name, "password": password })).await
    }
}

pub(crate) fn headers_of(opened: &Answer) -> String {
    assert_eq!(opened.status, 200, "{}", opened.body);
    let cookie = opened.header("set-cookie").unwrap();
    for asked in ["HttpOnly", "SameSite=Strict", "Path=/"] {
        assert!(cookie.contains(asked), "{cookie}");
    }
    let cookie = cookie.split(';').next().unwrap();
    format!("Cookie: {cookie}\r\nX-Provenohm-Page: {}\r\n", opened.json()["page"].as_str().unwrap())
}

pub(crate) fn jobs() -> Value {
    json!({ "operation": "jobs", "input": {} })
}
