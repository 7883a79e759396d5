//! The program: reads arguments, does one verb, says how it went.

fn main() -> std::process::ExitCode {
    outshop::run_command_line()
}
