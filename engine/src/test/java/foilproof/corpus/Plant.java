package foilproof.corpus;

import foilproof.findings.Bench;
import foilproof.findings.Severity;
import org.jspecify.annotations.Nullable;

/**
 * One row of the catalogue of needs, planted: a board with the fault, and the same board with a near miss just inside
 * the limit. The truth (kind, severity, line, place, cause) comes from the planter, which knows nothing of the checks.
 */
record Plant(String row, String kind, Severity severity, Planter planter) {
    /** Plants the fault, or the near miss. */
    interface Planter {
        Planted plant(Manner manner, boolean fault);
    }

    /**
     * A planted job and where the fault is.
     *
     * @param bench the job
     * @param line the first line that does it; 0 where the row has none
     * @param lastLine the last line that does it, where the fault runs over several
     * @param wayMm where the fault lies in the planter's frame, mm: one place, or a way along which it runs; empty where
     *     the row has none
     * @param cause the kind that must be named first where the planted fault follows from another one; null where the
     *     planted fault itself must lead
     * @param beside a kind of the same severity that tells the same thing and may stand first; null where none
     * @param says words that the finding must say, where its kind alone does not tell the row from another; null where
     *     none
     */
    record Planted(
            Bench bench,
            int line,
            int lastLine,
            double[] wayMm,
            @Nullable String cause,
            @Nullable String beside,
            @Nullable String says) {
        /** The same, with this kind named first. */
        Planted because(String kind) {
            return new Planted(bench, line, lastLine, wayMm, kind, beside, says);
        }

        /** The same, where another kind tells the same thing and may stand first. */
        Planted orAs(String kind) {
            return new Planted(bench, line, lastLine, wayMm, cause, kind, says);
        }

        /** The same, told in these words. */
        Planted saying(String words) {
            return new Planted(bench, line, lastLine, wayMm, cause, beside, words);
        }

        /** The same, with the cutters touched off here. */
        Planted touched(String point) {
            bench.side("touch_off", point);
            return this;
        }

        /** The same, done by these lines. */
        Planted byLines(int first, int last) {
            return new Planted(bench, first, last, wayMm, cause, beside, says);
        }

        /** The same, at a place or along a way: x, y of each corner. */
        Planted along(double... xy) {
            return new Planted(bench, line, lastLine, xy, cause, beside, says);
        }
    }

    /** A sound bench whose blank, work zero and touch point are the manner's. */
    static Bench bench(Manner m) {
        return Bench.job()
                .blank("width", m.widthMm() + " mm", "height", m.heightMm() + " mm")
                .machine("backlash", "[\"0 mm\", \"0 mm\"]")
                .side("work_zero", m.workZero(), "touch_off", m.point(18.5, 13.5));
    }

    static Planted on(Bench bench, int line) {
        return new Planted(bench, line, line, new double[0], null, null, null);
    }

    static Planted at(Bench bench, int line, double x, double y) {
        return new Planted(bench, line, line, new double[] {x, y}, null, null, null);
    }
}
