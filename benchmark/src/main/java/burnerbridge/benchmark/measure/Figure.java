package burnerbridge.benchmark.measure;

/**
 * One row of what a run measured.
 *
 * @param run the command
 * @param what was measured, without its unit
 * @param reference beside what; empty for nothing
 * @param referenceMedian in the same unit; NaN where there is no reference
 */
public record Figure(
        String run, String what, String unit, Seen seen, String reference, double referenceMedian, Aim aim) {

    /** With its quartiles. Has no reference and no aim yet, as those below; {@link Figures} puts the run in. */
    public static Figure quartiles(String what, String unit, Spread spread) {
        return of(what, unit, Seen.quartiles(spread));
    }

    /** With the least and the most, where they differ. */
    public static Figure range(String what, String unit, Spread spread) {
        return of(what, unit, spread.least() == spread.most() ? Seen.once(spread.median()) : Seen.range(spread));
    }

    /** Seen once. */
    public static Figure once(String what, String unit, double value) {
        return of(what, unit, Seen.once(value));
    }

    private static Figure of(String what, String unit, Seen seen) {
        return new Figure("", what, unit, seen, "", Double.NaN, Aim.NONE);
    }

    public Figure beside(String other, double itsMedian) {
        return new Figure(run, what, unit, seen, other, itsMedian, aim);
    }

    public Figure aiming(Aim at) {
        return new Figure(run, what, unit, seen, reference, referenceMedian, at);
    }

    public Figure in(String itsRun) {
        return new Figure(itsRun, what, unit, seen, reference, referenceMedian, aim);
    }

    /** Of the medians, ours to the reference; NaN where there is none. */
    public double ratio() {
        return seen.median() / referenceMedian;
    }
}
