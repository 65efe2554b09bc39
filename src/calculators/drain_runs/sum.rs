//! The sum of runs that join.

use super::RUNS;
use crate::calculator::{Refuse, Row, Severity, Stop, Work};
use crate::calculators::routes;
use crate::quantity::Q;
use crate::science::drain::{
    depth_for_flow, fall_needed, fall_to_spare, invert_at_end, manning_velocity, velocity_ratio,
};
use crate::science::plumbing::{PIPE_RULES, PipeRule, cleanouts, furthest_vent, vent_bore};
use crate::units::{L_PER_MIN, M, MM, NUMBER};

/// A run with what it brings, and how far from the end it does.
struct Run {
    row: Row,
    joins: Q,
    flow: Q,
}

pub(super) fn work(w: &mut Work) -> Result<(), Stop> {
    let rows = w.rows(RUNS)?;
    if rows.is_empty() {
        return Err(Stop::todo("D", "There is no run yet.", "Add the runs that join."));
    }
    meets(w)?;
    let [slope, n, shared, rule] = w.inputs(["S", "n", "D", "rule"])?;
    let rule = &PIPE_RULES[usize::from(rule.si > 0.0)];
    let runs = rows.into_iter().map(|row| {
        let [joins, flow] = w.of(&row, ["x", "q"])?;
        Ok(Run { row, joins, flow })
    });
    let runs = runs.collect::<Result<Vec<_>, Stop>>()?;
    let mut decides: Option<[Q; 4]> = None;
    let [right, half] = w.inputs(["m_90", "m_45"])?;
    let longest = runs.iter().map(|run| run.joins).reduce(Q::max).unwrap_or(Q::constant("none", 0.0, M));
    let mut counted = Q::constant("none", 0.0, NUMBER);
    if longest.si > 0.0 {
        counted = counted + cleanouts(rule, longest, shared, [right, half]);
    }
    let mut counted = w.answer("k_s", counted)?;
    for run in &runs {
        let fall = fall(w, run, slope)?;
        if decides.is_none_or(|[least, ..]| fall[0] < least) {
            decides = Some(fall);
        }
        own_pipe(w, run, (slope, n))?;
        // Whatever joins no nearer to the end runs by this junction.
        let flows = runs.iter().filter(|other| other.joins >= run.joins).map(|other| other.flow);
        let together = flows.reduce(|sum, next| sum + next).unwrap_or(run.flow);
        shared_pipe(w, run, together, [shared, slope, n])?;
        counted = counted + code(w, run, rule, slope)?;
    }
    if let Some([least, run, height, taken]) = decides {
        w.answer("least", least)?;
        w.answer("l_d", run)?;
        w.answer("h_d", height)?;
        w.answer("o_d", taken)?;
    }
    let all = runs.iter().map(|run| run.flow).reduce(|sum, next| sum + next);
    w.answer("q_T", all.unwrap_or(Q::constant("none", 0.0, L_PER_MIN)))?;
    w.answer("k_T", counted)?;
    Ok(())
}

/// Refuses runs that must not meet.
fn meets(w: &Work) -> Result<(), Stop> {
    let runs = routes::liquids(w, RUNS, "class")?;
    for (k, (name, class)) in runs.iter().enumerate() {
        for (other, other_class) in &runs[..k] {
            let Some(reason) = routes::conflict((name, *class), (other, *other_class)) else { continue };
            let remedy = "Give one of the two a drain of its own, with its own trap, vent and end; or say its class, if it is not known.";
            return Err(Stop::at("class", reason, remedy).row(name));
        }
    }
    Ok(())
}

/// Fall to spare of a run; gives it with the run, and the height that there is and is taken.
fn fall(w: &mut Work, run: &Run, slope: Q) -> Result<[Q; 4], Stop> {
    let row = &run.row;
    let [own, height, taken] = w.of(row, ["l_b", "h", "o"])?;
    let whole = w.give(row, "L", own + run.joins)?;
    w.give(row, "need", fall_needed(whole, slope))?;
    w.give(row, "z_j", invert_at_end(height - taken, own, slope))?;
    let spare = w.give(row, "spare", fall_to_spare(height, taken, whole, slope))?;
    Ok([spare, whole, height, taken])
}

/// Velocity in the run's own pipe.
fn own_pipe(w: &mut Work, run: &Run, (slope, n): (Q, Q)) -> Result<(), Stop> {
    let [bore] = w.of(&run.row, ["D_b"])?;
    if let Some((_, velocity)) = flows(w, run, "v_b", run.flow, [bore, slope, n])? {
        w.give(&run.row, "v_b", velocity)?;
    }
    Ok(())
}

/// Depth and velocity in the shared pipe after a junction.
fn shared_pipe(w: &mut Work, run: &Run, together: Q, pipe: [Q; 3]) -> Result<(), Stop> {
    let together = w.give(&run.row, "q_j", together)?;
    if let Some((depth, velocity)) = flows(w, run, "y_j", together, pipe)? {
        w.give(&run.row, "y_j", depth)?;
        w.give(&run.row, "v_j", velocity)?;
    }
    Ok(())
}

/// Depth and velocity of a flow in a pipe of a bore, slope and roughness; none without a flow, or with more than the
/// pipe carries, which is said.
fn flows(w: &mut Work, run: &Run, at: &str, flow: Q, pipe: [Q; 3]) -> Result<Option<(Q, Q)>, Stop> {
    let [bore, slope, n] = pipe;
    if flow.si <= 0.0 {
        return Ok(None);
    }
    match depth_for_flow(flow, bore, slope, n) {
        Ok(depth) => {
            let full = manning_velocity(bore / 4.0, slope, n);
            let velocity = full * velocity_ratio(depth).or_stop("D")?;
            Ok(Some((depth, velocity)))
        }
        Err(refusal) => {
            let text = format!("{}: {}", run.row.key, refusal.text());
            w.add_finding(&run.row, at, Severity::Serious, text);
            Ok(None)
        }
    }
}

/// Cleanouts and vent of a run; gives how many cleanouts.
fn code(w: &mut Work, run: &Run, rule: &PipeRule, slope: Q) -> Result<Q, Stop> {
    let row = &run.row;
    let [own, bore, right, half] = w.of(row, ["l_b", "D_b", "n_90", "n_45"])?;
    let count = w.give(row, "k", cleanouts(rule, own, bore, [right, half]))?;
    let furthest = w.give(row, "l_vm", furthest_vent(rule, bore))?;
    w.give(row, "D_v", vent_bore(bore))?;
    if let Some(vent) = w.optional(row, "l_v")? {
        let falls = fall_needed(vent, slope);
        if vent > furthest {
            let [is, may] = [vent, furthest].map(|length| w.style.show(length.si, M));
            let text = format!(
                "{}: its vent is {is} from the trap, and the code lets it be {may}: what runs off would suck the trap empty, and fumes come back. Bring the vent nearer, or take a wider pipe.",
                row.key
            );
            w.add_finding(row, "l_vm", Severity::Caution, text);
        } else if falls > bore {
            let [drop, bore] = [falls, bore].map(|height| w.style.show(height.si, MM));
            let text = format!(
                "{}: up to its vent the pipe falls {drop}, more than its bore of {bore}: water closes the vent off, and sucks the trap empty. Less slope there, or a nearer vent.",
                row.key
            );
            w.add_finding(row, "l_vm", Severity::Caution, text);
        }
    }
    Ok(count)
}
