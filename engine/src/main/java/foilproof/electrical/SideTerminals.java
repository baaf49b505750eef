package foilproof.electrical;

import foilproof.bench.Face;
import foilproof.copper.Terminal;
import foilproof.design.CopperPieces;
import foilproof.design.CopperProbe;
import foilproof.design.LayerImage;
import foilproof.design.Placement;
import foilproof.design.PlaneMap;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** The places of one side that its copper must join or keep apart, as the Z window asks for them. */
public final class SideTerminals {
    /** A point with copper this far on all sides lies well inside its land, mm. */
    private static final double AROUND_MM = 0.05;

    private SideTerminals() {}

    /**
     * Terminals of a side.
     *
     * @param nets what was meant
     * @param placement where the design lies
     * @param side the side, from 0
     * @param layer the layer image of the face that is up there, design coordinates; null where there is none: all
     *     places of a net on this side are then one group
     * @param stays where copper stays at the set-up itself, in the blank's frame of this side: the first point of each
     *     place that stays is used
     */
    public static List<Terminal> of(
            IntendedNets nets, Placement placement, int side, @Nullable LayerImage layer, CopperProbe stays) {
        Face face = placement.sides().get(side).face();
        PlaneMap map = placement.blankFromDesign(side);
        CopperPieces drawn = layer == null ? null : layer.pieces();
        List<Terminal> out = new ArrayList<>();
        Map<Long, Integer> groups = new HashMap<>();
        for (int n = 0; n < nets.nets().size(); n++) {
            for (NetPlace place : nets.nets().get(n).places()) {
                if (place.face() != face) {
                    continue;
                }
                double[] at = stays(place, map, stays);
                int piece = drawn == null ? 0 : Math.max(0, drawn.pieceAt(at[0], at[1]) + 1);
                int group = groups.computeIfAbsent((long) n << 32 | piece, k -> groups.size());
                out.add(new Terminal(n, group, map.xMm(at[0], at[1]), map.yMm(at[0], at[1])));
            }
        }
        return out;
    }

    /**
     * The first point of a place with copper all round it, so that no wall of a hole or groove runs through it; else
     * the first with copper, else its first.
     */
    private static double[] stays(NetPlace place, PlaneMap map, CopperProbe copper) {
        double[] bare = null;
        for (double[] p : place.probes()) {
            double x = map.xMm(p[0], p[1]);
            double y = map.yMm(p[0], p[1]);
            if (!copper.copperAt(x, y)) {
                continue;
            }
            if (copper.copperAt(x - AROUND_MM, y)
                    && copper.copperAt(x + AROUND_MM, y)
                    && copper.copperAt(x, y - AROUND_MM)
                    && copper.copperAt(x, y + AROUND_MM)) {
                return p;
            }
            bare = bare == null ? p : bare;
        }
        return bare == null ? place.probes().get(0) : bare;
    }
}
