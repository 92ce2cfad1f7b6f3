//! Named, timed steps; the first that fails ends the task.
use std::time::Instant;

use crate::trouble::Trouble;

/// A task's progress, as the person sees it.
pub(crate) struct Steps {
    task: &'static str,
    started: Instant,
    done: usize,
}

impl Steps {
    pub(crate) fn of(task: &'static str) -> Self {
        Self { task, started: Instant::now(), done: 0 }
    }

    /// Says the step's name, does it, says how long it took.
    pub(crate) fn step(&mut self, name: &str, act: impl FnOnce() -> Result<(), Trouble>) -> Result<(), Trouble> {
        self.done += 1;
        println!("── {} · {name}", self.done);
        let started = Instant::now();
        let done = act();
        let seconds = started.elapsed().as_secs_f32();
        match &done {
            Ok(()) => println!("   done in {seconds:.1} s"),
            Err(_) => println!("   {} stopped at step {} · {name}, after {seconds:.1} s", self.task, self.done),
        }
        done
    }

    /// The last line of a task that came through.
    pub(crate) fn end(&self) {
        let seconds = self.started.elapsed().as_secs();
        println!("── {}: all {} steps done in {} min {} s", self.task, self.done, seconds / 60, seconds % 60);
    }
}
