package foilproof.findings;

import foilproof.copper.Strip;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetPlace;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Leftover strips of copper for lists of a report, by what they can reach. */
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
}
