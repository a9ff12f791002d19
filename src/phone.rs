//! The app on a phone (see platform/android/native/).

use std::process::ExitCode;

fn main() -> ExitCode {
    match curbcore::store::data_folder() {
        Ok(folder) => {
            curbcore::ui::launch_on_phone(&folder);
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("curbcore: {error}");
            ExitCode::from(2)
        }
    }
}
