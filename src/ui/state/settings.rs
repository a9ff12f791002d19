//! What the person set: units, light, outlet.

use super::AppState;
use crate::app::workspace::outlet_of;
use crate::magnetics::circuit::mains::Outlet;
use crate::quantity::LengthUnit;
use crate::store::Setting;

impl AppState {
    /// The person's unit of length.
    #[must_use]
    pub fn unit(&self) -> LengthUnit {
        match self.setting(Setting::LengthUnit).as_deref() {
            Some("inch") => LengthUnit::Inch,
            _ => LengthUnit::Millimetre,
        }
    }

    /// True where the person thinks of wire in AWG.
    #[must_use]
    pub fn awg(&self) -> bool {
        self.setting(Setting::WireUnit).as_deref() == Some("awg")
    }

    /// "light", "dark", or "auto" for what the device has.
    #[must_use]
    pub fn theme(&self) -> String {
        self.setting(Setting::Theme).unwrap_or_else(|| "auto".to_owned())
    }

    /// The outlet that the person used last.
    #[must_use]
    pub fn outlet(&self) -> &'static Outlet {
        outlet_of(self.setting(Setting::MainsDefault).as_deref().unwrap_or("na-15"))
    }

    /// A setting's value; none also where it cannot be read, which the shelf's settings show.
    pub(super) fn setting(&self, setting: Setting) -> Option<String> {
        self.query(|data| data.store().setting(setting)).ok().flatten()
    }

    /// Sets a setting.
    pub fn set(&mut self, setting: Setting, value: &str) {
        self.with_workspace(|workspace| workspace.set_setting(setting, value));
    }
}
