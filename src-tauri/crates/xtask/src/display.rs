//! Whether a window can be seen here.
use crate::trouble::Trouble;

/// Whether there is a display, asked before minutes are spent on a build.
///
/// # Errors
/// One that is named and does not answer.
pub(crate) fn is_there() -> Result<bool, Trouble> {
    if cfg!(not(target_os = "linux")) {
        return Ok(true);
    }
    let named = |name| std::env::var(name).ok().filter(|value: &String| !value.is_empty());
    let (wayland, x) = (named("WAYLAND_DISPLAY"), named("DISPLAY"));
    if wayland.as_deref().is_some_and(wayland_answers) || x.as_deref().is_some_and(x_answers) {
        return Ok(true);
    }
    let silent = [("WAYLAND_DISPLAY", wayland), ("DISPLAY", x)];
    match silent.into_iter().find_map(|(name, value)| Some((name, value?))) {
        None => Ok(false),
        Some((name, value)) => Err(Trouble::new(
            format!("{name} is {value}, and no display answers there."),
            "start this where one answers, or unset it, so that the app is driven on a virtual one",
        )),
    }
}

#[cfg(unix)]
fn wayland_answers(name: &str) -> bool {
    let folder = std::env::var_os("XDG_RUNTIME_DIR").unwrap_or_default();
    std::os::unix::net::UnixStream::connect(std::path::Path::new(&folder).join(name)).is_ok()
}

/// `:1` and `unix:1.0` are sockets of this machine, `localhost:10.0` is the other end of a connection.
#[cfg(unix)]
fn x_answers(name: &str) -> bool {
    let Some((host, number)) = name.rsplit_once(':') else { return false };
    let Ok(number) = number.split('.').next().unwrap_or_default().parse::<u16>() else { return false };
    if !matches!(host, "" | "unix") {
        return number.checked_add(6000).is_some_and(|port| std::net::TcpStream::connect((host, port)).is_ok());
    }
    let socket = format!("/tmp/.X11-unix/X{number}");
    std::os::unix::net::UnixStream::connect(&socket).is_ok() || abstract_answers(&socket)
}

#[cfg(target_os = "linux")]
fn abstract_answers(socket: &str) -> bool {
    use std::os::linux::net::SocketAddrExt as _;
    use std::os::unix::net::{SocketAddr, UnixStream};
    SocketAddr::from_abstract_name(socket).is_ok_and(|address| UnixStream::connect_addr(&address).is_ok())
}

#[cfg(not(target_os = "linux"))]
fn abstract_answers(_socket: &str) -> bool {
    false
}

#[cfg(not(unix))]
fn wayland_answers(_name: &str) -> bool {
    false
}

#[cfg(not(unix))]
fn x_answers(_name: &str) -> bool {
    false
}
