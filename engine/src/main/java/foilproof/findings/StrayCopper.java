package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Work;
import foilproof.copper.NarrowGap;
import foilproof.copper.Piece;
import foilproof.copper.StripFinder;
import foilproof.motion.Stroke;
import java.util.ArrayList;
import java.util.List;

/** Pieces of copper without a net (E6): small ones are debris, large ones are told once. */
final class StrayCopper implements Check {
    /** Gaps wider than this are bridged by no debris, mm. */
    private static final double MOST_GAP_MM = 1;

    private static final int MOST_PAIRS = 6;
    /** How far from a piece the middle of a groove beside it lies at most, mm. */
    private static final double BESIDE_MM = 0.5;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.STRAY_COPPER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E6", "J9");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        boolean design = x.design().verdict() != null;
        List<String> sides = new ArrayList<>();
        int all = 0;
        int only = 0;
        for (CopperFacts copper : x.copper()) {
            if (copper.windows().isEmpty()) {
                continue;
            }
            List<Piece> small = new ArrayList<>();
            int large = 0;
            for (Piece piece : copper.map().pieces()) {
                // a hair or sliver that stands alone has a finding of its own
                boolean strip = copper.strips().stream()
                        .anyMatch(t -> t.piece() == piece.index() && t.leftover() && t.island());
                if (x.design().carriesNet(copper.side(), piece.index())
                        || strip
                        || piece.areaMm2() < x.limit(LimitKey.STRAY_AREA) && lettering(x, copper, piece)) {
                    continue;
                }
                if (piece.areaMm2() < x.limit(LimitKey.STRAY_AREA)) {
                    small.add(piece);
                } else {
                    large++;
                }
            }
            if (!small.isEmpty()) {
                out.add(debris(x, copper, small));
            }
            if (large > (design ? 0 : 1)) {
                sides.add(Words.count(large, "piece", "pieces") + " on side " + copper.side());
                all += large;
                only = copper.side();
            }
        }
        if (!sides.isEmpty()) {
            out.add(leftover(x, sides, all, only, design));
        }
    }

    /** Large pieces are told once a board, never one by one (E6). */
    private static Finding leftover(Examination x, List<String> sides, int all, int only, boolean design) {
        Finding.Builder b = Finding.of(Kinds.STRAY_COPPER, Severity.NOTE, Certainty.GEOMETRY);
        if (sides.size() == 1) {
            b.side(only);
        }
        String where = String.join(" and ", sides);
        return design
                ? b.measured(Measured.exact("pieces of copper without a net", all, "pieces"))
                        .says("Leftover copper that belongs to no net stays: " + where + ".")
                        .doThis("Harmless where it is far from everything; clear it away where it is not.")
                        .build()
                : b.measured(Measured.exact("pieces of copper", all, "pieces"))
                        .says("The copper is in " + where + ", each of "
                                + Words.number(x.limit(LimitKey.STRAY_AREA), 1)
                                + " mm2 and more. Without a design it is not known which of them are wanted.")
                        .doThis("Give [design] a layer image or a netlist to have them told apart.")
                        .build();
    }

    /** Whether only letters run beside a piece: what stands within an A or an O is part of the word. */
    private static boolean lettering(Examination x, CopperFacts copper, Piece piece) {
        boolean text = false;
        for (Stroke stroke : x.paths().strokes()) {
            boolean here = x.run(stroke.run()).side().number() == copper.side();
            for (int i = stroke.firstSegment(); here && i < stroke.endSegment(); i++) {
                double[] box = x.plan().segments().planBox(i);
                if (box[2] > piece.x0Mm() - BESIDE_MM
                        && box[0] < piece.x1Mm() + BESIDE_MM
                        && box[3] > piece.y0Mm() - BESIDE_MM
                        && box[1] < piece.y1Mm() + BESIDE_MM) {
                    if (x.workOf(i) != Work.TEXT) {
                        return false;
                    }
                    text = true;
                }
            }
        }
        return text;
    }

    /**
     * Which nets a loose piece can join (J9): those whose gap is no wider than the piece is long, wherever it comes to
     * lie; the narrowest such gaps are named, to be buzzed out.
     */
    private static String reach(Examination x, CopperFacts copper, List<Piece> small) {
        if (x.design().verdict() == null) {
            // no nets to join: the gaps need not be looked for
            return "";
        }
        double longest = 0;
        for (Piece piece : small) {
            longest = Math.max(longest, StrictMath.hypot(piece.x1Mm() - piece.x0Mm(), piece.y1Mm() - piece.y0Mm()));
        }
        List<String> pairs = new ArrayList<>();
        int count = 0;
        for (NarrowGap gap : StripFinder.gaps(copper.map(), Math.min(longest, MOST_GAP_MM))) {
            String a = x.design().netOn(copper.side(), gap.pieceA());
            String b = x.design().netOn(copper.side(), gap.pieceB());
            if (a != null && b != null && !a.equals(b)) {
                count++;
                if (pairs.size() < MOST_PAIRS) {
                    pairs.add(a.compareTo(b) < 0 ? a + " and " + b : b + " and " + a);
                }
            }
        }
        return pairs.isEmpty()
                ? ""
                : " Loose, the longest (" + Words.plainMm(longest) + ") reaches across the gaps between "
                        + String.join(", ", pairs) + (count > pairs.size() ? " and more" : "")
                        + ": brush the board and buzz these pairs out.";
    }

    private static Finding debris(Examination x, CopperFacts copper, List<Piece> small) {
        Piece first = small.get(small.size() - 1);
        Finding.Builder b = Finding.of(Kinds.STRAY_COPPER, Severity.WATCH, Certainty.GEOMETRY)
                .side(copper.side())
                .at(first.insideXMm(), first.insideYMm())
                .box(first.x0Mm(), first.y0Mm(), first.x1Mm(), first.y1Mm())
                .atLeast(
                        new Measured("area", first.areaMm2(), "mm2", first.areaErrorMm2()),
                        x.limit(LimitKey.STRAY_AREA))
                .says((small.size() == 1 ? "A piece of copper stands" : small.size() + " pieces of copper stand")
                        + " alone and " + (small.size() == 1 ? "is" : "are") + " smaller than "
                        + Words.number(x.limit(LimitKey.STRAY_AREA), 1) + " mm2; the smallest has "
                        + Words.number(first.areaMm2(), 3) + " mm2. So little glue may let go."
                        + reach(x, copper, small))
                .doThis("Clear such pieces away with another pass, or leave them joined to larger copper.");
        copper.nearestLine(x, b, first.insideXMm(), first.insideYMm());
        return b.build();
    }
}
