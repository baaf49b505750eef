package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.XyMm;
import foilproof.bench.ZZero;
import foilproof.copper.CopperMap;
import foilproof.copper.SideField;
import foilproof.motion.MotionEvent;
import foilproof.motion.ToolRun;
import foilproof.stock.ComposedBoard;
import foilproof.stock.ComposedSide;
import foilproof.stock.Conditions;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Cutters touched off where the foil is no longer whole (B2), or where grooves cut the touch point off from the clip of
 * an electric touch-off, so that the circuit never closes and the cutter dives (B3).
 */
final class TouchOffs implements Check {
    private static final double PRISTINE_MM = 1e-6;
    private static final int RINGS = 8;
    private static final int RAYS = 48;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.TOUCH_OFF_SPOILT);
    }

    @Override
    public List<String> needsRows() {
        return List.of("B2", "B3");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        FindingCollector each = new FindingCollector();
        touches(x, each);
        each.notChecked().forEach(row -> out.notChecked(row.what(), row.why()));
        List<Finding> led = new ArrayList<>();
        for (Finding f : each.findings()) {
            int same = sameSpot(led, f);
            if (same < 0) {
                led.add(f);
            } else {
                led.set(same, led.get(same).withConsequences(List.of(f)));
            }
        }
        led.forEach(out::add);
    }

    /** The finding that already says that a spot is spoilt: a spot is moved once, however many cutters use it. */
    private static int sameSpot(List<Finding> led, Finding f) {
        for (int k = 0; k < led.size(); k++) {
            double[] a = led.get(k).atMm();
            double[] b = f.atMm();
            if (a != null
                    && b != null
                    && (led.get(k).measured() == null) == (f.measured() == null)
                    && Objects.equals(led.get(k).side(), f.side())
                    && StrictMath.hypot(a[0] - b[0], a[1] - b[1]) < PRISTINE_MM) {
                return k;
            }
        }
        return -1;
    }

    private static void touches(Examination x, FindingCollector out) {
        Set<Integer> told = new HashSet<>();
        for (MotionEvent event : x.plan().events()) {
            if (event.kind() == MotionEvent.Kind.PROBE_MISSED) {
                missed(x, event, out);
            } else if (event.kind() == MotionEvent.Kind.PROBE_TRIPPED) {
                probed(x, event, told, out);
            }
        }
        for (RunFacts run : x.runs()) {
            ToolRun r = run.run();
            if (run.tool() == null || r.zZero() != ZZero.FOIL || !r.touchPointNamed() || r.zeroRun() != r.index()) {
                continue;
            }
            if (!x.cuts(run)) {
                continue;
            }
            Finding spoilt = told.contains(r.index())
                    ? null
                    : spoilt(
                            x,
                            run,
                            x.at(
                                            Finding.of(Kinds.TOUCH_OFF_SPOILT, Severity.STOP, Certainty.GEOMETRY),
                                            r.firstSegment())
                                    .line(run.entry().file(), Math.max(1, r.startLine()))
                                    .time(r.startS()),
                            r.touchXMm(),
                            r.touchYMm());
            Finding circuit = circuit(x, run);
            boolean cutAway = spoilt != null
                    && x.board().before(run.side().number(), r.index()).surfaceMm(r.touchXMm(), r.touchYMm())
                                    - run.zeroMm()
                            > PRISTINE_MM;
            if (spoilt != null) {
                // where the foil is cut away under the touch point, no circuit closes for that very reason
                out.add(cutAway && circuit != null ? spoilt.withConsequences(List.of(circuit)) : spoilt);
            }
            if (circuit != null && !cutAway) {
                out.add(circuit);
            }
        }
    }

    private static void missed(Examination x, MotionEvent event, FindingCollector out) {
        int segment =
                Math.max(0, Math.min(event.beforeSegment(), x.plan().segments().size()) - 1);
        out.add(x.at(Finding.of(Kinds.TOUCH_OFF_SPOILT, Severity.STOP, Certainty.GEOMETRY), segment)
                .at(event.xMm(), event.yMm())
                .line(x.plan().programs().get(event.program()).file(), event.line())
                .time(event.timeS())
                .says("The probing move runs to its end without tripping: it meets no copper that is joined to the"
                        + " clip, and the cutter dives.")
                .doThis("Probe on copper that is joined to the clip, and give the move enough travel.")
                .build());
    }

    /** A probing move before a run cuts anything is its touch-off; the first one of each run is told. */
    private static void probed(Examination x, MotionEvent event, Set<Integer> told, FindingCollector out) {
        int segment =
                Math.max(0, Math.min(event.beforeSegment(), x.plan().segments().size()) - 1);
        RunFacts run = x.run(x.plan().segments().run(segment));
        if (run.tool() == null || told.contains(run.run().index())) {
            return;
        }
        for (int i = run.run().firstSegment(); i <= segment; i++) {
            if (x.plan().segments().isFeed(i) && x.removes(i)) {
                return;
            }
        }
        Finding.Builder b = x.at(Finding.of(Kinds.TOUCH_OFF_SPOILT, Severity.STOP, Certainty.GEOMETRY), segment)
                .line(x.plan().programs().get(event.program()).file(), event.line())
                .time(event.timeS());
        Finding spoilt = spoilt(x, run, b, event.xMm(), event.yMm());
        if (spoilt != null) {
            out.add(spoilt);
            told.add(run.run().index());
        }
    }

    private static @Nullable Finding spoilt(Examination x, RunFacts run, Finding.Builder b, double xMm, double yMm) {
        ComposedSide before = x.board().before(run.side().number(), run.run().index());
        double reach = run.knownTool().cutRadiusAtHeightMm(0) + x.limit(LimitKey.TOUCH_CLEAR);
        double deepest = 0;
        for (int ring = 0; ring <= RINGS; ring++) {
            for (int ray = 0; ray < RAYS; ray++) {
                double d = reach * ring / RINGS;
                double px = xMm + d * StrictMath.cos(2 * Math.PI * ray / RAYS);
                double py = yMm + d * StrictMath.sin(2 * Math.PI * ray / RAYS);
                deepest = Math.max(deepest, before.surfaceMm(px, py) - before.exactHeightMm(px, py));
            }
        }
        if (deepest <= PRISTINE_MM) {
            return null;
        }
        double at = before.surfaceMm(xMm, yMm) - before.exactHeightMm(xMm, yMm);
        return b.at(xMm, yMm)
                .measured(Measured.mm("cut near the touch point", deepest, 0.001))
                .says(
                        at > PRISTINE_MM
                                ? run.quotedName() + " is touched off where an earlier run has cut " + Words.mm(at)
                                        + " deep: all that it cuts then sits that much deeper."
                                : run.quotedName() + " is touched off within " + Words.plainMm(reach)
                                        + " of an earlier cut: burrs and edges falsify the touch.")
                .doThis("Move touch_off to a spot that no program cuts, and keep it free.")
                .build();
    }

    private static @Nullable Finding circuit(Examination x, RunFacts run) {
        XyMm clip = run.side().probeClipMm();
        ToolRun r = run.run();
        if (clip == null || !cutBefore(x, run)) {
            return null;
        }
        Conditions then = x.conditions();
        for (RunFacts later : x.runs()) {
            if (later.run().index() >= r.index()) {
                then = then.withPresent(later.run().index(), false);
            }
        }
        ComposedBoard board = x.stock().under(then);
        CopperMap map = CopperMap.of(new SideField(board, run.side().number()), 0);
        int touched = map.pieceAt(r.touchXMm(), r.touchYMm());
        int clipped = map.pieceAt(clip.xMm(), clip.yMm());
        if (touched < 0 || clipped < 0 || touched != clipped) {
            return x.at(Finding.of(Kinds.TOUCH_OFF_SPOILT, Severity.STOP, Certainty.GEOMETRY), r.firstSegment())
                    .at(r.touchXMm(), r.touchYMm())
                    .line(run.entry().file(), Math.max(1, r.startLine()))
                    .time(r.startS())
                    .says("When " + run.quotedName() + " is touched off, its touch point "
                            + (touched < 0
                                    ? "has no copper"
                                    : "is no longer on one piece of copper with the clip at "
                                            + Words.place(clip.xMm(), clip.yMm()))
                            + ": an electric touch-off never closes, and the cutter dives.")
                    .doThis("Move the clip to the copper of the touch point, or touch off with a shim.")
                    .build();
        }
        return null;
    }

    private static boolean cutBefore(Examination x, RunFacts run) {
        for (RunFacts earlier : x.runs()) {
            if (earlier.run().index() < run.run().index()
                    && earlier.side().number() == run.side().number()
                    && x.cuts(earlier)) {
                return true;
            }
        }
        return false;
    }
}
