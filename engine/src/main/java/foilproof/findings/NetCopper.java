package foilproof.findings;

import foilproof.bench.Net;
import foilproof.copper.CopperMap;
import foilproof.copper.Piece;
import foilproof.design.Bounds;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetFigures;
import foilproof.electrical.NetPlace;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What the copper of one net carries as milled: its worst piece over all sides. Worked out for the nets that the job
 * gives a current or a voltage.
 *
 * @param stated what the job says of the net
 * @param side side of the figures, from 1
 * @param figures widths and resistance on that side, in the blank's frame of the side
 * @param areaMm2 area of that piece of copper, mm2
 */
public record NetCopper(Net stated, int side, NetFigures figures, double areaMm2) {
    /** Temperature at which resistances are told, deg C. */
    static final double AMBIENT_C = 20;

    private static final double CELL_MM = 0.05;

    /** Narrowest section at the foil bottom, mm. */
    public double narrowestMm() {
        return figures.narrowest().bottomMm();
    }

    /** Largest resistance between two of its places at 20 deg C, mohm. */
    public double resistanceMohm() {
        return 1000 * figures.ohm(AMBIENT_C);
    }

    /** Temperature rise at the stated current, K; null where no current is stated. */
    public @Nullable Double riseK() {
        return stated.currentA().isPresent() ? figures.riseK(stated.currentA().getAsDouble()) : null;
    }

    static Map<String, NetCopper> of(Examination x) {
        Map<String, NetCopper> all = new LinkedHashMap<>();
        for (Net stated : x.job().nets()) {
            for (IntendedNets.Net net : x.design().nets().nets()) {
                if (net.name().equals(stated.name())) {
                    NetCopper worst = worst(x, stated, net);
                    if (worst != null) {
                        all.put(stated.name(), worst);
                    }
                }
            }
        }
        return all;
    }

    private static @Nullable NetCopper worst(Examination x, Net stated, IntendedNets.Net net) {
        NetCopper worst = null;
        for (CopperFacts copper : x.copper()) {
            Map<Integer, List<NetPlace>> byPiece = new LinkedHashMap<>();
            for (NetPlace place : net.places()) {
                double[] at = x.design().onBlank(place);
                if (at == null || (int) at[0] != copper.side()) {
                    continue;
                }
                NetPlace here = x.design().laidOn(place, at);
                for (double[] probe : here.probes()) {
                    int piece = copper.map().pieceAt(probe[0], probe[1]);
                    if (piece >= 0) {
                        byPiece.computeIfAbsent(piece, k -> new ArrayList<>()).add(here);
                        break;
                    }
                }
            }
            for (Map.Entry<Integer, List<NetPlace>> entry : byPiece.entrySet()) {
                NetFigures figures = figures(x, copper, entry.getKey(), entry.getValue(), net.name());
                if (figures != null
                        && (worst == null
                                || figures.squares().squares()
                                        > worst.figures().squares().squares())) {
                    worst = new NetCopper(
                            stated,
                            copper.side(),
                            figures,
                            copper.map().pieces().get(entry.getKey()).areaMm2());
                }
            }
        }
        return worst;
    }

    private static @Nullable NetFigures figures(
            Examination x, CopperFacts copper, int index, List<NetPlace> places, String net) {
        CopperMap map = copper.map();
        Piece piece = map.pieces().get(index);
        double foil = copper.field().foilMm();
        return NetFigures.of(
                net,
                places,
                (px, py) -> map.pieceAt(px, py) == index,
                (px, py) -> map.pieceAt(px, py) == index && copper.field().exactMarginMm(px, py) >= foil - 1e-9,
                new Bounds(piece.x0Mm(), piece.y0Mm(), piece.x1Mm(), piece.y1Mm()),
                piece.areaMm2(),
                x.foilMm(),
                CELL_MM);
    }
}
