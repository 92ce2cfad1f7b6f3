//! What the operations promise, asked through the door the screens use.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod circuits;
mod demo;
mod recall;
mod group;
mod recording;
mod support;
