//! The state of the person's data, and reading from it.

use std::fmt::Display;

use super::super::words::explain;
use super::AppState;
use crate::app::workspace::Workspace;
use crate::words::Explain;

/// The person's data, as the screens have it.
#[derive(Debug)]
pub(super) enum WorkspaceState {
    /// At hand.
    Open(Box<Workspace>),
    /// Out for a longer operation: nothing is read or changed until it is back.
    Busy,
    /// Not to be used, for the reason that is shown.
    Failed(String),
}

impl WorkspaceState {
    /// The workspace, where it is at hand.
    pub(super) fn open(&self) -> Option<&Workspace> {
        match self {
            WorkspaceState::Open(workspace) => Some(workspace),
            WorkspaceState::Busy | WorkspaceState::Failed(_) => None,
        }
    }

    /// As [`WorkspaceState::open`], to change it.
    pub(super) fn open_mut(&mut self) -> Option<&mut Workspace> {
        match self {
            WorkspaceState::Open(workspace) => Some(workspace),
            WorkspaceState::Busy | WorkspaceState::Failed(_) => None,
        }
    }
}

/// Why something could not be read. A screen shows it in the place of what would stand there:
/// what cannot be read never looks like what is not there.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Unread {
    /// The data are out for a longer operation, of which the screen tells.
    Busy,
    /// The sentence of the error.
    Failed(String),
}

impl AppState {
    /// Reads from the person's data.
    ///
    /// # Errors
    /// [`Unread`] where the data are not at hand, or `with` fails.
    pub fn query<T, E: Display + Explain>(&self, with: impl FnOnce(&Workspace) -> Result<T, E>) -> Result<T, Unread> {
        match &self.workspace {
            WorkspaceState::Open(workspace) => with(workspace).map_err(|error| {
                tracing::error!("cannot be read: {error}");
                Unread::Failed(explain(&error))
            }),
            WorkspaceState::Busy => Err(Unread::Busy),
            WorkspaceState::Failed(why) => Err(Unread::Failed(why.clone())),
        }
    }
}
