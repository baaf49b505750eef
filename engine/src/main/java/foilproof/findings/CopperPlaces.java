package foilproof.findings;

import foilproof.copper.Strip;
import foilproof.copper.ZLimit;
import foilproof.copper.ZWindow;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetPlace;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Places of the copper for lists and maps of a report: slivers by what they can reach, and what limits Z windows. */
public final class CopperPlaces {
    private CopperPlaces() {}

    /**
     * A leftover strip of copper; coordinates in the blank's frame of its side, mm.
     *
     * @param side from 1
     * @param xMm where it is narrowest
     * @param yMm likewise
     * @param boxMm x0, y0, x1, y1 round it
     * @param baseMm least width at the foil bottom
     * @param topMm width on top there
     * @param plusMinusMm how far either may be off
     * @param lengthMm its length
     * @param freeEnds ends that nothing holds
     * @param gapMm distance to the nearest other piece of copper; null where none is within its length
     * @param reaches whether it would bridge that gap if it came loose
     * @param net the net that its own copper carries; null where none or not known
     * @param otherNet the net of the nearest other piece; null where none or not known
     */
    public record SliverPlace(
            int side,
            double xMm,
            double yMm,
            double[] boxMm,
            double baseMm,
            double topMm,
            double plusMinusMm,
            double lengthMm,
            int freeEnds,
            @Nullable Double gapMm,
            boolean reaches,
            @Nullable String net,
            @Nullable String otherNet) {}

    /**
     * A place that ends a Z window.
     *
     * @param side from 1
     * @param tool the cutter
     * @param kind kind of finding that is raised beyond it
     * @param upper whether it ends the window towards deeper
     * @param xMm blank's frame
     * @param yMm blank's frame
     * @param eMm the Z error at which it is raised, + = really deeper
     * @param plusMinusMm how far that may be off
     * @param roomMm room between it and the stated spread; negative where the spread reaches beyond
     */
    public record MarginPlace(
            int side,
            String tool,
            String kind,
            boolean upper,
            double xMm,
            double yMm,
            double eMm,
            double plusMinusMm,
            double roomMm) {}

    /** Leftover strips: those that reach other copper first, longest reach beyond the gap first. */
    public static List<SliverPlace> sliversByReach(Examination x) {
        List<SliverPlace> list = new ArrayList<>();
        for (CopperFacts copper : x.copper()) {
            for (Strip s : copper.strips()) {
                if (s.leftover()) {
                    list.add(new SliverPlace(
                            copper.side(),
                            s.xMm(),
                            s.yMm(),
                            new double[] {s.x0Mm(), s.y0Mm(), s.x1Mm(), s.y1Mm()},
                            s.baseMm(),
                            s.topMm(),
                            s.errorMm(),
                            s.lengthMm(),
                            s.freeEnds(),
                            Double.isInfinite(s.gapMm()) ? null : s.gapMm(),
                            s.reachesOther(),
                            netOf(x, copper, s.piece()),
                            netOf(x, copper, s.otherPiece())));
                }
            }
        }
        list.sort(Comparator.comparing((SliverPlace p) -> !p.reaches)
                .thenComparingDouble(p -> (p.gapMm == null ? Double.MAX_VALUE : p.gapMm) - p.lengthMm)
                .thenComparingDouble(SliverPlace::baseMm)
                .thenComparingInt(SliverPlace::side)
                .thenComparingDouble(SliverPlace::xMm)
                .thenComparingDouble(SliverPlace::yMm));
        return List.copyOf(list);
    }

    /** The name of the net on a piece of a side's copper; null where none or not known. */
    public static @Nullable String netOf(Examination x, CopperFacts copper, int piece) {
        if (piece < 0 || !x.design().carriesNet(copper.side(), piece)) {
            return null;
        }
        for (IntendedNets.Net net : x.design().nets().nets()) {
            for (NetPlace place : net.places()) {
                for (double[] probe : place.probes()) {
                    if (x.design().sideOf(place.face()) == copper.side()) {
                        var map = x.design().blankFromDesign(copper.side());
                        if (copper.map().pieceAt(map.xMm(probe[0], probe[1]), map.yMm(probe[0], probe[1])) == piece) {
                            return net.name();
                        }
                    }
                }
            }
        }
        return null;
    }

    /** What ends the Z windows, least room first. */
    public static List<MarginPlace> marginPlaces(Examination x) {
        List<MarginPlace> list = new ArrayList<>();
        for (CopperFacts copper : x.copper()) {
            for (Map.Entry<Integer, ZWindow> entry : copper.windows().entrySet()) {
                String tool = x.run(entry.getKey()).toolName();
                ZWindow w = entry.getValue();
                add(list, copper.side(), tool, w.limitedFrom(), false, w.spreadFromMm());
                add(list, copper.side(), tool, w.limitedTo(), true, w.spreadToMm());
            }
        }
        list.sort(Comparator.comparingDouble(MarginPlace::roomMm)
                .thenComparingInt(MarginPlace::side)
                .thenComparing(MarginPlace::tool));
        return List.copyOf(list);
    }

    private static void add(
            List<MarginPlace> list, int side, String tool, @Nullable ZLimit limit, boolean upper, double spreadMm) {
        if (limit != null && !Double.isNaN(limit.xMm())) {
            double room = upper ? limit.eMm() - spreadMm : spreadMm - limit.eMm();
            list.add(new MarginPlace(
                    side,
                    tool,
                    limit.kind().key(),
                    upper,
                    limit.xMm(),
                    limit.yMm(),
                    limit.eMm(),
                    limit.errorMm(),
                    room));
        }
    }
}
