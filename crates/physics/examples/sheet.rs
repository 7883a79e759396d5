//! Prints one sheet from the command line, for looking at while a law is written.
fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let given: Vec<physics::Given> = args[1..]
        .iter()
        .filter_map(|a| a.split_once('='))
        .map(|(n, t)| physics::Given::typed(n, t))
        .collect();
    match physics::run(&args[0], &given, measure::House::Inch) {
        Ok(s) => println!("{}", s.to_text()),
        Err(e) => println!("{e}"),
    }
}
