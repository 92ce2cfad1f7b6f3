//! The whole product in real windows.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod bench;
mod board;
mod damaged;
mod devices;
mod group;
mod hand_over;
mod job_file;
mod keyboard;
mod long_work;
mod opening;
mod order;
mod review;
mod screens;
mod settle;
mod side_by_side;
mod sign_off;
mod sizes;
mod tester;
mod whole_job;
