//! Wires at hand, and designs kept to compare.

use super::{Workspace, WorkspaceError};
use crate::job::fields;
use crate::job::{Choice, Design, DesignId, JobId, StockId, StockWire};
use crate::quantity::parse_number;
use crate::store::Op;
use crate::wire::Catalogue;

impl Workspace {
    /// Puts a wire on the shelf. `conductor` is a name of the catalogue, or `own-BARE-OVER` in
    /// millimetres for a solid wire of the person's own, `own-SECTIONmm2-OVER` for a cable; `length` is in metres, as typed.
    ///
    /// # Errors
    /// An unknown conductor (the nearest is named), or a length that is no number or out of range.
    pub fn add_stock(&mut self, conductor: &str, length: &str) -> Result<(), WorkspaceError> {
        let conductor = conductor.trim();
        Catalogue::standard().find_in_any_metal(conductor)?;
        let field = fields::find("stock[].length_m");
        let unknown = || WorkspaceError::UnknownField("stock[].length_m".to_owned());
        let field = field.ok_or_else(unknown)?;
        let length_m = parse_number(length).map_err(|reason| WorkspaceError::Number { field, reason })?;
        let wire = StockWire {
            conductor: conductor.to_owned(),
            length_m,
            price_per_m: None,
        };
        self.store.edit(Op::AddWire, |edit| edit.insert(&wire))?;
        Ok(())
    }

    /// Takes a wire off the shelf.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn remove_stock(&mut self, id: StockId) -> Result<(), WorkspaceError> {
        Ok(self.store.edit(Op::RemoveWire, |edit| edit.delete(id))?)
    }

    /// Keeps the chosen winding beside the job, to compare it with others.
    ///
    /// # Errors
    /// A blank or overlong name; [`WorkspaceError::Store`].
    pub fn keep_design(&mut self, id: JobId, name: &str, choice: &Choice) -> Result<(), WorkspaceError> {
        let design = Design {
            job: id,
            name: name.to_owned(),
            choice: choice.clone(),
            note: String::new(),
        };
        self.store.edit(Op::KeepWinding, |edit| edit.insert(&design))?;
        Ok(())
    }

    /// Lets go of a winding that was kept.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn drop_design(&mut self, id: DesignId) -> Result<(), WorkspaceError> {
        Ok(self.store.edit(Op::RemoveWinding, |edit| edit.delete(id))?)
    }
}
