package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.copper.Piece;
import java.util.ArrayList;
import java.util.List;

/** Pieces of copper without a net (E6): small ones are debris, large ones are told once. */
final class StrayCopper implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.STRAY_COPPER);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
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
                if (x.design().carriesNet(copper.side(), piece.index()) || strip) {
                    continue;
                }
                if (piece.areaMm2() < x.limit(LimitKey.STRAY_AREA)) {
                    small.add(piece);
                } else {
                    large++;
                }
            }
            if (large > 0 && x.design().verdict() != null) {
                out.add(Finding.of(Kinds.STRAY_COPPER, Severity.NOTE, Certainty.GEOMETRY)
                        .side(copper.side())
                        .measured(Measured.exact("pieces of copper without a net", large, "pieces"))
                        .says("Side " + copper.side() + " keeps " + large + (large == 1 ? " piece" : " pieces")
                                + " of leftover copper that belongs to no net.")
                        .doThis("Harmless where it is far from everything; clear it away where it is not.")
                        .build());
            }
            if (!small.isEmpty()) {
                out.add(debris(x, copper, small));
            }
            if (large > 1 && x.design().verdict() == null) {
                out.add(Finding.of(Kinds.STRAY_COPPER, Severity.NOTE, Certainty.GEOMETRY)
                        .side(copper.side())
                        .measured(Measured.exact("pieces of copper", large, "pieces"))
                        .says("The copper of side " + copper.side() + " is in " + large + " pieces of "
                                + Words.number(x.limit(LimitKey.STRAY_AREA), 1)
                                + " mm2 and more. Without a design it is not known which of them are wanted.")
                        .doThis("Give [design] a layer image or a netlist to have them told apart.")
                        .build());
            }
        }
    }

    private static Finding debris(Examination x, CopperFacts copper, List<Piece> small) {
        Piece first = small.get(small.size() - 1);
        return Finding.of(Kinds.STRAY_COPPER, Severity.WATCH, Certainty.GEOMETRY)
                .side(copper.side())
                .at(first.insideXMm(), first.insideYMm())
                .box(first.x0Mm(), first.y0Mm(), first.x1Mm(), first.y1Mm())
                .atLeast(
                        new Measured("area", first.areaMm2(), "mm2", first.areaErrorMm2()),
                        x.limit(LimitKey.STRAY_AREA))
                .says((small.size() == 1 ? "A piece of copper stands" : small.size() + " pieces of copper stand")
                        + " alone and " + (small.size() == 1 ? "is" : "are") + " smaller than "
                        + Words.number(x.limit(LimitKey.STRAY_AREA), 1) + " mm2; the smallest has "
                        + Words.number(first.areaMm2(), 3) + " mm2. So little glue may let go.")
                .doThis("Clear such pieces away with another pass, or leave them joined to larger copper.")
                .build();
    }
}
