package foilproof.findings;

import foilproof.bench.IntervalMm;
import foilproof.bench.LimitKey;
import foilproof.copper.CopperMap;
import foilproof.copper.CutLines;
import foilproof.copper.EdgeStrip;
import foilproof.copper.FoilLeft;
import foilproof.copper.MarginField;
import foilproof.copper.NarrowGap;
import foilproof.copper.RingMeter;
import foilproof.copper.SideCopper;
import foilproof.copper.SideField;
import foilproof.copper.Strip;
import foilproof.copper.StripFinder;
import foilproof.copper.Terminal;
import foilproof.copper.ZWindow;
import foilproof.copper.ZWindowSetup;
import foilproof.design.LayerImage;
import foilproof.design.Placement;
import foilproof.design.PlaneMap;
import foilproof.stock.ComposedBoard;
import foilproof.stock.Memo;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The copper of one side at the end of the job, judged at the foil bottom. Immutable; each part is found when first asked
 * for, and kept.
 */
public final class CopperFacts {
    /** A groove's neighbourhood, mm: wider than any groove of an engraving bit. */
    private static final double NEAR_MM = 0.5;

    /** Memory of a side's copper for each tile that a cutter reached: about that of its heights. */
    private static final long COPPER_BYTES_PER_TILE = 16_384;

    private final int side;
    private final ComposedBoard board;
    private final @Nullable Memo memo;
    private final List<SideCopper.Run> runs = new ArrayList<>();
    private final List<Terminal> terminals;
    private final @Nullable Drawn drawn;
    private final SideCopper.Limits limits;
    private final SideCopper copper;
    private final double edgeStripMm;
    private final double leastStripMm;
    private final Map<Integer, CutLines> lines = new LinkedHashMap<>();
    private @Nullable Map<Integer, List<FoilLeft>> left;
    private @Nullable Map<Integer, ZWindow> windows;
    private @Nullable ZWindow joint;
    private boolean jointKnown;
    private @Nullable List<EdgeStrip> edgeStrips;

    private CopperFacts(Examination x, ReadDesign design, int side) {
        this.side = side;
        board = x.board();
        memo = x.options().memo();
        terminals = DesignFacts.terminals(x, design, side, copperOf(new SideField(board, side)));
        for (RunFacts run : x.runs()) {
            if (run.side().number() == side && run.tool() != null && x.cutsAnyFoil(run)) {
                CutLines own = CutLines.of(x.plan().segments(), run.run(), run.nominalZeroMm());
                lines.put(run.run().index(), own);
                runs.add(judged(x, run, own));
            }
        }
        drawn = designed(x, design, side);
        limits = limits(x);
        edgeStripMm = x.limit(LimitKey.EDGE_STRIP);
        leastStripMm = x.limit(LimitKey.SLIVER_LENGTH);
        copper = copperOn(board);
    }

    /** What the copper of a side depends on. */
    private record Key(
            Object board,
            List<SideCopper.Run> runs,
            List<Terminal> terminals,
            @Nullable Drawn drawn,
            SideCopper.Limits limits) {}

    /** Stands for the window of one run, or of all where the run is -1. */
    private record WindowKey(Key copper, int run) {}

    private Key key(ComposedBoard of) {
        return new Key(of.likeness(side), List.copyOf(runs), terminals, drawn, limits);
    }

    private SideCopper copperOn(ComposedBoard of) {
        long bytes = 0;
        for (int run : of.side(side).runs()) {
            bytes += of.side(side).envelope(run).tiles().tileCount() * COPPER_BYTES_PER_TILE;
        }
        long size = bytes;
        return Memo.of(memo, key(of), made -> size, () -> new SideCopper(of, side, runs, terminals, drawn, limits));
    }

    /**
     * The window of a run. It is found with the run at its zero and counted from where it is then: so it is the same
     * for every Z error of the run.
     */
    private ZWindow findWindow(SideCopper.Run run) {
        ComposedBoard atZero = board.withoutZError(run.run());
        SideCopper.Run known = run;
        ZWindow window = Memo.of(
                memo,
                new WindowKey(key(atZero), run.run()),
                made -> 1000L + 30L * known.lines().size(),
                () -> (atZero == board ? copper : copperOn(atZero)).window(known));
        return window.from(board.conditions().zErrorMm(run.run()));
    }

    private static foilproof.design.CopperProbe copperOf(MarginField field) {
        return field::copperAt;
    }

    private static SideCopper.Run judged(Examination x, RunFacts run, CutLines lines) {
        IntervalMm spread = x.spreadOf(run);
        return new SideCopper.Run(
                run.run().index(),
                lines,
                run.tool() != null && run.tool().duty().keepsItsDepth(),
                deepest(x, run),
                spread.fromMm(),
                spread.toMm());
    }

    /** Where a run goes deepest below its zero, or below the foil where its Z follows the touched points (C13). */
    private static ZWindowSetup.@Nullable Deepest deepest(Examination x, RunFacts run) {
        if (!HeightMap.followed(x, run)) {
            return CutLines.deepest(x.plan().segments(), run.run(), run.nominalZeroMm());
        }
        foilproof.motion.Segments s = x.plan().segments();
        ZWindowSetup.Deepest deepest = null;
        for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
            double below = s.isFeed(i) && !s.has(i, foilproof.motion.Segments.POSITION_UNKNOWN)
                    ? HeightMap.belowFoilMm(x, run, i) - run.zErrorMm()
                    : 0;
            if (below > (deepest == null ? 1e-9 : deepest.belowZeroMm() + 1e-9)) {
                deepest = new ZWindowSetup.Deepest(below, s.x1Mm(i), s.y1Mm(i), s.program(i), s.line(i));
            }
        }
        return deepest;
    }

    private static SideCopper.Limits limits(Examination x) {
        return new SideCopper.Limits(
                new Strip.Limits(
                        x.limit(LimitKey.HAIR_WIDTH),
                        x.limit(LimitKey.SLIVER_WIDTH),
                        Math.max(x.limit(LimitKey.THIN_WIDTH), x.limit(LimitKey.TRACE_WIDTH)),
                        x.limit(LimitKey.KNIFE_EDGE_TOP),
                        x.limit(LimitKey.KNIFE_EDGE_BASE),
                        x.limit(LimitKey.SLIVER_LENGTH)),
                x.limit(LimitKey.NARROW_GAP),
                x.limit(LimitKey.TRACE_WIDTH),
                x.limit(LimitKey.TRACE_WIDTH_FIX),
                new ZWindowSetup.Limits(
                        x.limit(LimitKey.FOIL_CLEARED),
                        x.limit(LimitKey.DUTY_WATCH_DEPTH),
                        x.limit(LimitKey.DUTY_FIX_DEPTH)));
    }

    static List<CopperFacts> of(Examination x, ReadDesign design) {
        List<CopperFacts> all = new ArrayList<>();
        for (var side : x.job().sides()) {
            all.add(new CopperFacts(x, design, side.number()));
        }
        return List.copyOf(all);
    }

    /** What the design has as copper, as it lies on a side. */
    private record Drawn(LayerImage layer, PlaneMap map) implements StripFinder.Designed {
        @Override
        public boolean copperAt(double xMm, double yMm) {
            return layer.covers(map.xMm(xMm, yMm), map.yMm(xMm, yMm));
        }
    }

    private static @Nullable Drawn designed(Examination x, ReadDesign design, int side) {
        LayerImage layer = design.layers().get(x.job().sides().get(side - 1).face());
        return layer == null ? null : new Drawn(layer, Placement.of(x.job()).designFromBlank(side - 1));
    }

    /** The side, from 1. */
    public int side() {
        return side;
    }

    /** Margins above the glue plane. */
    public MarginField field() {
        return copper.field();
    }

    /** Copper at the foil bottom. */
    public CopperMap map() {
        return copper.map();
    }

    /** Whether the map was asked for yet. */
    boolean mapped() {
        return copper.mapped();
    }

    /** Area that a cutter entered and in which foil is left, mm2. */
    public double foilLeftMm2() {
        return copper.foilLeftMm2();
    }

    /** Whether any run cuts foil here, so that it has a Z window. */
    public boolean cut() {
        return !runs.isEmpty();
    }

    /** Strips of foil left under the grooves of each run, by index of the run. */
    public synchronized Map<Integer, List<FoilLeft>> left() {
        Map<Integer, List<FoilLeft>> have = left;
        if (have == null) {
            have = new LinkedHashMap<>();
            for (SideCopper.Run run : runs) {
                have.put(run.run(), copper.foilLeft(run));
            }
            left = have;
        }
        return have;
    }

    /** The Z window of each run that cuts foil, by index of the run. */
    public synchronized Map<Integer, ZWindow> windows() {
        Map<Integer, ZWindow> have = windows;
        if (have == null) {
            have = new LinkedHashMap<>();
            for (SideCopper.Run run : runs) {
                have.put(run.run(), findWindow(run));
            }
            windows = have;
        }
        return have;
    }

    /** The window of one Z error shared by all runs; null where not computed. */
    public synchronized @Nullable ZWindow joint() {
        if (!jointKnown) {
            Map<Integer, ZWindow> own = windows();
            joint = runs.isEmpty()
                    ? null
                    : runs.size() == 1
                            ? own.get(runs.get(0).run())
                            : Memo.of(
                                    memo,
                                    new WindowKey(key(board), -1),
                                    made -> 1000L,
                                    () -> copper.jointWindow(run -> Objects.requireNonNull(own.get(run.run()))));
            jointKnown = true;
        }
        return joint;
    }

    /** Strips of copper narrower than the widest that is told, worst first. */
    public List<Strip> strips() {
        return runs.isEmpty() ? List.of() : copper.strips();
    }

    /** Gaps between two pieces narrower than is told, narrowest first. */
    public List<NarrowGap> gaps() {
        return runs.isEmpty() ? List.of() : copper.gaps();
    }

    /** Strips of copper between a groove and the blank's edge, narrowest first. */
    public synchronized List<EdgeStrip> edgeStrips() {
        List<EdgeStrip> have = edgeStrips;
        if (have == null) {
            have = runs.isEmpty() ? List.of() : copper.edgeStrips(edgeStripMm, leastStripMm);
            edgeStrips = have;
        }
        return have;
    }

    /** Whether a place lies in the box of a strip of foil left in a groove. */
    boolean foilLeftNear(double xMm, double yMm) {
        for (List<FoilLeft> strips : left().values()) {
            for (FoilLeft strip : strips) {
                if (xMm > strip.x0Mm() - NEAR_MM
                        && xMm < strip.x1Mm() + NEAR_MM
                        && yMm > strip.y0Mm() - NEAR_MM
                        && yMm < strip.y1Mm() + NEAR_MM) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Puts the line whose groove runs nearest to a place, its moment and tool into a finding. */
    void nearestLine(Examination x, Finding.Builder finding, double xMm, double yMm) {
        double best = Double.POSITIVE_INFINITY;
        int run = -1;
        int at = -1;
        for (Map.Entry<Integer, CutLines> entry : lines.entrySet()) {
            CutLines own = entry.getValue();
            for (int i = 1; i < own.size(); i++) {
                if (own.path(i) != own.path(i - 1)) {
                    continue;
                }
                double d = distanceMm(own, i, xMm, yMm);
                if (d < best - 1e-9) {
                    best = d;
                    run = entry.getKey();
                    at = i;
                }
            }
        }
        CutLines own = lines.get(run);
        int hole = plungeNearer(x, xMm, yMm, best);
        if (hole >= 0) {
            finding.line(x.plan().programOf(hole).file(), x.plan().segments().line(hole))
                    .time(x.plan().segments().startS(hole))
                    .tool(x.run(x.plan().segments().run(hole)).toolName());
        } else if (own != null) {
            finding.line(x.plan().programs().get(own.program(at)).file(), own.line(at))
                    .time(x.timeAtLine(x.run(run), own.program(at), own.line(at)))
                    .tool(x.run(run).toolName());
        }
    }

    /** A plunge whose hole holds the place, where no groove runs nearer than its middle; -1 where there is none. */
    private int plungeNearer(Examination x, double xMm, double yMm, double grooveMm) {
        foilproof.motion.Segments s = x.plan().segments();
        int best = -1;
        double least = grooveMm;
        for (RunFacts run : x.runs()) {
            if (run.side().number() != side || run.tool() == null) {
                continue;
            }
            for (int i = run.run().firstSegment(); i < run.run().endSegment(); i++) {
                double low = run.blankFromRunMm(s.lowestMm(i));
                if (s.isFeed(i) && s.planLengthMm(i) == 0 && low < -x.foilMm()) {
                    double d = StrictMath.hypot(s.x1Mm(i) - xMm, s.y1Mm(i) - yMm);
                    if (d < least - 1e-9 && d <= run.knownTool().cutRadiusAtHeightMm(-low - x.foilMm()) + 0.05) {
                        least = d;
                        best = i;
                    }
                }
            }
        }
        return best;
    }

    private static double distanceMm(CutLines own, int i, double xMm, double yMm) {
        double ax = own.xMm(i - 1);
        double ay = own.yMm(i - 1);
        double dx = own.xMm(i) - ax;
        double dy = own.yMm(i) - ay;
        double length2 = dx * dx + dy * dy;
        double t = length2 == 0 ? 0 : Math.max(0, Math.min(1, ((xMm - ax) * dx + (yMm - ay) * dy) / length2));
        return StrictMath.hypot(ax + t * dx - xMm, ay + t * dy - yMm);
    }

    /**
     * Copper left round a hole at the foil bottom: the least distance from its edge to where copper ends, mm; 0 where
     * none is left beside it somewhere.
     *
     * @param xMm centre of the hole
     * @param yMm likewise
     * @param radiusMm its radius at the foil bottom
     * @param mostMm rings of this width and more need not be told apart
     */
    public double ringMm(double xMm, double yMm, double radiusMm, double mostMm) {
        return new RingMeter(map()).ringMm(xMm, yMm, radiusMm, mostMm);
    }
}
