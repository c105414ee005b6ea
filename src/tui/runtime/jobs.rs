//! Work on another thread, so that no key waits for it.
//!
//! Of the jobs about one thing one runs and the newest waits. Whoever asks for another one no longer
//! wants the one before: that is cancelled if it runs and forgotten if it waits, and what it found out
//! is dropped. Jobs about different things leave one another alone.

use std::any::Any;
use std::panic::{self, AssertUnwindSafe};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::{fmt, io, thread};

use crate::tui::event::Wake;
use crate::tui::wakes::Wakes;

/// Work that finds something out.
///
/// # Example
///
/// ```
/// use fretloom::tui::runtime::Job;
///
/// let job = Job::new(|cancelled| (0..1000_u64).take_while(|_| !cancelled.is_set()).sum::<u64>());
/// assert_eq!(job.run(), 499_500);
/// ```
pub struct Job<Answer> {
    about: Subject,
    work: Box<Work<Answer>>,
}

/// What a job is about: only the newest one about each thing matters.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Subject {
    /// What is to be heard.
    Sound,
    /// The plans of a chart.
    Plan,
    /// A file that is read or written.
    File,
    /// What is kept.
    Keepers,
}

type Work<Answer> = dyn FnOnce(&Cancelled) -> Answer + Send;

impl<Answer> Job<Answer> {
    /// A job about what is to be heard. Work that may take long looks now and then whether anybody
    /// still wants it; what it gives then is dropped.
    #[must_use]
    pub fn new(work: impl FnOnce(&Cancelled) -> Answer + Send + 'static) -> Job<Answer> {
        Job { about: Subject::Sound, work: Box::new(work) }
    }

    /// What it is about.
    #[must_use]
    pub const fn subject(&self) -> Subject {
        self.about
    }

    /// The same work about something else.
    #[must_use]
    pub fn about(self, about: Subject) -> Job<Answer> {
        Job { about, ..self }
    }

    /// Does the work here and now, to its end.
    #[must_use]
    pub fn run(self) -> Answer {
        (self.work)(&Cancelled::default())
    }
}

impl<Answer> fmt::Debug for Job<Answer> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Job")
    }
}

/// Tells a job whether anybody still wants what it finds out.
#[derive(Clone, Default, Debug)]
pub struct Cancelled(Arc<AtomicBool>);

impl Cancelled {
    /// Does nobody want it any more?
    #[must_use]
    pub fn is_set(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }

    fn set(&self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// The threads that do the jobs, one for each subject. Dropping this cancels what runs and waits for
/// nothing.
pub(super) struct Jobs<Answer> {
    sound: Worker<Answer>,
    plan: Worker<Answer>,
    file: Worker<Answer>,
    keepers: Worker<Answer>,
}

/// A thread that does jobs; it starts with the first of them.
struct Worker<Answer> {
    desk: Arc<Desk<Answer>>,
    has_started: bool,
}

/// What the two threads share.
struct Desk<Answer> {
    papers: Mutex<Papers<Answer>>,
    came: Condvar,
    wakes: Arc<Wakes>,
}

struct Papers<Answer> {
    waiting: Option<Job<Answer>>,
    /// What cancels the job that was asked for last.
    newest: Cancelled,
    found: Option<Answer>,
    is_over: bool,
}

impl<Answer: Send + 'static> Jobs<Answer> {
    pub(super) fn new(wakes: &Arc<Wakes>) -> Jobs<Answer> {
        let worker = || Worker::new(Arc::clone(wakes));
        Jobs { sound: worker(), plan: worker(), file: worker(), keepers: worker() }
    }

    /// Has a job done in place of any other about the same thing.
    ///
    /// # Errors
    ///
    /// When there can be no other thread.
    pub(super) fn ask(&mut self, job: Job<Answer>) -> io::Result<()> {
        match job.about {
            Subject::Sound => self.sound.ask(job),
            Subject::Plan => self.plan.ask(job),
            Subject::File => self.file.ask(job),
            Subject::Keepers => self.keepers.ask(job),
        }
    }

    /// What a job has found out that was asked for last about its subject; each once.
    pub(super) fn take_answer(&self) -> Option<Answer> {
        let all = [&self.sound, &self.plan, &self.file, &self.keepers];
        all.into_iter().find_map(Worker::take_answer)
    }
}

impl<Answer: Send + 'static> Worker<Answer> {
    fn new(wakes: Arc<Wakes>) -> Worker<Answer> {
        let newest = Cancelled::default();
        let papers = Papers { waiting: None, newest, found: None, is_over: false };
        let desk = Desk { papers: Mutex::new(papers), came: Condvar::new(), wakes };
        Worker { desk: Arc::new(desk), has_started: false }
    }

    fn ask(&mut self, job: Job<Answer>) -> io::Result<()> {
        let mut papers = self.desk.lock();
        papers.newest.set();
        papers.newest = Cancelled::default();
        papers.waiting = Some(job);
        papers.found = None;
        drop(papers);
        self.desk.came.notify_one();
        self.start()
    }

    fn take_answer(&self) -> Option<Answer> {
        self.desk.lock().found.take()
    }

    fn start(&mut self) -> io::Result<()> {
        if !self.has_started {
            let desk = Arc::clone(&self.desk);
            thread::Builder::new().name("jobs".into()).spawn(move || desk.serve())?;
            self.has_started = true;
        }
        Ok(())
    }
}

impl<Answer> Drop for Worker<Answer> {
    fn drop(&mut self) {
        let mut papers = self.desk.lock();
        papers.newest.set();
        papers.waiting = None;
        papers.is_over = true;
        drop(papers);
        self.desk.came.notify_one();
    }
}

impl<Answer> Desk<Answer> {
    /// Does job after job until nobody is there to ask for one, or one of them panics.
    fn serve(&self) {
        while let Some((job, cancelled)) = self.next() {
            match panic::catch_unwind(AssertUnwindSafe(|| (job.work)(&cancelled))) {
                Ok(answer) => self.tell(answer, &cancelled),
                Err(panic) => return self.tell_of_panic(panic),
            }
        }
    }

    /// Waits for a job, and takes it.
    fn next(&self) -> Option<(Job<Answer>, Cancelled)> {
        let mut papers = self.lock();
        loop {
            if papers.is_over {
                return None;
            }
            if let Some(job) = papers.waiting.take() {
                return Some((job, papers.newest.clone()));
            }
            papers = self.came.wait(papers).unwrap_or_else(PoisonError::into_inner);
        }
    }

    fn tell(&self, answer: Answer, cancelled: &Cancelled) {
        let mut papers = self.lock();
        // Under the lock, so that no other job can have been asked for in between.
        if !cancelled.is_set() {
            papers.found = Some(answer);
            self.wakes.put_first(Wake::Answered);
        }
    }

    fn tell_of_panic(&self, panic: Box<dyn Any + Send>) {
        self.wakes.put_first(Wake::Panicked(panic));
    }

    /// The papers are whole after every change of them, so a panic elsewhere does not matter.
    fn lock(&self) -> MutexGuard<'_, Papers<Answer>> {
        self.papers.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
