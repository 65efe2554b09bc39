//! The main jobs in each browser: Chromium, Firefox and WebKit. All else about the page is tested in Chromium alone,
//! in `tests/browser/`, whose harness and steps these share.
//!
//! `cargo xtask browsers` gets the browsers and runs these. By hand, after `cargo xtask build`, with geckodriver on the
//! path: `xvfb-run -a cargo test --features browser-tests --test engines -- firefox`.
//!
//! A job does without what only Chromium's driver can do: sizes of screen, language, console.

#[path = "../browser/harness/mod.rs"]
mod harness;
mod jobs;
#[allow(dead_code)]
#[path = "../browser/steps.rs"]
mod steps;

/// A test for each of these jobs in one browser.
macro_rules! jobs {
    ($browser:ident, $engine:ident, [$($job:ident),+ $(,)?]) => {
        mod $browser {
            pub const JOBS: &[&str] = &[$(stringify!($job)),+];
            $(
                #[test]
                fn $job() {
                    crate::jobs::$job(crate::harness::Engine::$engine);
                }
            )+
        }
    };
}

/// The jobs of every browser, and further ones that this one can do.
macro_rules! main_jobs {
    ($module:ident, $engine:ident, [$($further:ident),*]) => {
        jobs!(
            $module,
            $engine,
            [
                an_example_opens_and_answers,
                a_bath_is_made_up_changed_and_taken_back,
                a_saved_plan_is_there_after_a_reload,
                the_line_is_shown_as_map_and_table,
                the_report_shows_every_sheet,
                a_plan_goes_by_link_and_is_kept_as_a_copy,
                a_damaged_link_says_so,
                a_plan_is_saved_as_a_file_and_opened_again,
                it_opens_and_works_with_the_server_gone,
                the_page_of_one_file_works_from_the_disk,
                $($further),*
            ]
        );
    };
}

main_jobs!(chromium, Chromium, [the_report_is_printed_as_pdf]);
main_jobs!(firefox, Firefox, [the_report_is_printed_as_pdf]);
// Its driver prints nothing.
main_jobs!(webkit, WebKit, []);

/// The table of the README says of each job where it runs, and names no other.
#[test]
fn the_readme_says_what_runs_where() {
    let readme = include_str!("../../README.md");
    let rows: Vec<Vec<&str>> = readme
        .lines()
        .filter(|line| line.ends_with("yes |") || line.ends_with("no |"))
        .map(|line| line.trim_matches('|').split('|').map(str::trim).collect())
        .collect();
    let wanted: Vec<Vec<String>> = chromium::JOBS
        .iter()
        .map(|job| {
            let runs = [chromium::JOBS, firefox::JOBS, webkit::JOBS].map(|jobs| jobs.contains(job));
            let cells = runs.iter().map(|runs| if *runs { "yes" } else { "no" }.to_string());
            std::iter::once(job.replace('_', " ")).chain(cells).collect()
        })
        .collect();
    assert_eq!(rows, wanted);
}
