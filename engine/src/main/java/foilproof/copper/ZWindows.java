package foilproof.copper;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Finds Z windows: the intersection of the limits of design section 1, idea 4. */
public final class ZWindows {
    /** What limits lie nearer to each other are looked at together, mm. */
    private static final double ROOM_MM = 1e-4;

    private ZWindows() {}

    /** The window of one tool run, the others at their set-up; or of all runs where the field is the joint one. */
    public static ZWindow of(ZWindowSetup setup) {
        ZWindow window = search(setup, setup.field());
        boolean wide = window.fromMm() == null
                || window.toMm() == null
                || window.toMm() - window.fromMm() >= window.spreadToMm() - window.spreadFromMm() - 1e-9;
        if (!window.empty() && wide) {
            return window;
        }
        ToolRunField flat = setup.field().flattened();
        ZWindow flattened = flat == setup.field() ? window : search(setup, flat);
        return new ZWindow(
                window.fromMm(),
                window.toMm(),
                window.limitedFrom(),
                window.limitedTo(),
                window.fixFromMm(),
                window.fixToMm(),
                window.spreadFromMm(),
                window.spreadToMm(),
                window.noneWithinHeadroom(),
                flattened);
    }

    /**
     * The window of a run that moves no copper within the headroom (see {@link RunSideField#moves}) and whose nets hold
     * as it is: what of foil, widths and duty is left.
     */
    static ZWindow settled(ZWindowSetup setup) {
        return limits(setup, setup.field(), foilOf(setup, setup.field()), null);
    }

    private static ZWindow search(ZWindowSetup setup, ToolRunField field) {
        ZLimit foil = foilOf(setup, field);
        return limits(setup, field, foil, netsOf(setup, field, foil));
    }

    private static @Nullable ZLimit foilOf(ZWindowSetup setup, ToolRunField field) {
        return FoilLeft.limit(setup.lines(), field, setup.limits().clearedBelowFoilMm());
    }

    private static NetLimits netsOf(ZWindowSetup setup, ToolRunField field, @Nullable ZLimit foil) {
        List<Terminal> terminals = setup.terminals();
        // Below the error at which foil stays the window has ended: what joins there need not be known.
        double headroom = field.headroomMm();
        // Cells may see a saddle too low (SaddleRefiner): the search begins so much below.
        double seen = SaddleRefiner.roomMm(field);
        double floor = foil == null ? -headroom : Math.max(-headroom, foil.eMm());
        // Likewise above the error at which it ends for another reason.
        double ceiling = Math.max(ceilingMm(setup, headroom) + ROOM_MM, Math.max(floor, 0) + ROOM_MM);
        if (terminals.isEmpty()) {
            double[] points = setup.leftoverMm();
            MergeTree tree = MergeTree.between(field, Math.min(floor, -0.001) - seen, ceiling, points);
            int[] ignored = new int[points.length / 2];
            for (int k = 0; k < ignored.length; k++) {
                ignored[k] = k;
            }
            return NetLimits.byPieces(tree, ignored);
        }
        double[] points = new double[2 * terminals.size()];
        for (int k = 0; k < terminals.size(); k++) {
            points[2 * k] = terminals.get(k).xMm();
            points[2 * k + 1] = terminals.get(k).yMm();
        }
        double low = Math.max(-headroom, floor - ROOM_MM - seen);
        NetLimits nets = NetLimits.byTerminals(MergeTree.between(field, low, ceiling, points), terminals);
        return nets.beyondTree() ? NetLimits.byTerminals(MergeTree.of(field, -headroom, points), terminals) : nets;
    }

    /** The Z error above which widths or duty end the window, watches and fixes alike, mm; at most the headroom. */
    private static double ceilingMm(ZWindowSetup setup, double headroom) {
        ZWindowSetup.Deepest deepest = setup.copperOnly() ? setup.deepest() : null;
        double watch = headroom;
        double fix = headroom;
        if (deepest != null) {
            watch = Math.min(watch, setup.limits().dutyWatchMm() - deepest.belowZeroMm());
            fix = Math.min(fix, setup.limits().dutyFixMm() - deepest.belowZeroMm());
        }
        ZLimit widths = setup.widths();
        ZLimit widthsFix = setup.widthsFix();
        watch = widths == null ? watch : Math.min(watch, widths.eMm());
        fix = widthsFix == null ? fix : Math.min(fix, widthsFix.eMm());
        return watch >= headroom || fix >= headroom ? Double.POSITIVE_INFINITY : Math.max(watch, fix);
    }

    private static ZWindow limits(
            ZWindowSetup setup, ToolRunField field, @Nullable ZLimit foil, @Nullable NetLimits nets) {
        List<ZLimit> lows = new ArrayList<>();
        List<ZLimit> highs = new ArrayList<>();
        List<ZLimit> fixHighs = new ArrayList<>();
        add(lows, foil);
        if (nets != null) {
            add(lows, nets.apart());
            add(highs, nets.whole());
            add(fixHighs, nets.whole());
        }
        add(highs, setup.widths());
        add(fixHighs, setup.widthsFix());
        ZWindowSetup.Deepest deepest = setup.deepest();
        if (setup.copperOnly() && deepest != null) {
            highs.add(duty(deepest, setup.limits().dutyWatchMm()));
            fixHighs.add(duty(deepest, setup.limits().dutyFixMm()));
        }
        double headroom = field.headroomMm();
        ZLimit low = null;
        for (ZLimit l : lows) {
            low = low == null || l.eMm() > low.eMm() ? l : low;
        }
        if (low != null && low.eMm() < -headroom) {
            low = null;
        }
        ZLimit high = within(least(highs), headroom);
        ZLimit fixHigh = within(least(fixHighs), headroom);
        boolean none = (low != null && low.eMm() > headroom) || (high != null && high.eMm() < -headroom);
        return new ZWindow(
                end(low, headroom),
                end(high, headroom),
                low,
                high,
                end(low, headroom),
                end(fixHigh, headroom),
                ZWindow.snap(setup.spreadFromMm()),
                ZWindow.snap(setup.spreadToMm()),
                none,
                null);
    }

    /** An upper limit beyond the headroom is none: nothing is known there. */
    private static @Nullable ZLimit within(@Nullable ZLimit limit, double headroom) {
        return limit == null || limit.eMm() > headroom ? null : limit;
    }

    private static ZLimit duty(ZWindowSetup.Deepest deepest, double limitMm) {
        return new ZLimit(
                ZLimit.Kind.DUTY,
                limitMm - deepest.belowZeroMm(),
                1e-6,
                deepest.xMm(),
                deepest.yMm(),
                deepest.program(),
                deepest.line());
    }

    private static void add(List<ZLimit> list, @Nullable ZLimit limit) {
        if (limit != null) {
            list.add(limit);
        }
    }

    private static @Nullable ZLimit least(List<ZLimit> limits) {
        ZLimit least = null;
        for (ZLimit l : limits) {
            least = least == null || l.eMm() < least.eMm() ? l : least;
        }
        return least;
    }

    private static @Nullable Double end(@Nullable ZLimit limit, double headroom) {
        return limit == null ? null : ZWindow.snap(Math.max(-headroom, Math.min(headroom, limit.eMm())));
    }
}
