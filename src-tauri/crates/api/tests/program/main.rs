//! What the operations promise, asked through the door the screens use.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod alike;
mod bench;
mod boards;
mod bundles;
mod circuits;
mod damaged;
mod demo;
mod files;
mod group;
mod killed;
mod live;
mod on_paper;
mod overview;
mod readings_table;
mod recall;
mod recording;
mod references;
mod replicas;
mod review;
mod rules;
mod schedule;
mod seats;
mod settle;
mod side_by_side;
mod sign_off;
mod support;
