package foilproof.electrical;

import foilproof.bench.Face;
import foilproof.bench.Join;
import foilproof.design.DrillFile;
import foilproof.design.LayerImage;
import foilproof.design.Netlist;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Whether netlist and layer images belong together: the netlist's nets judged on the copper as drawn. */
public final class NetlistCheck {
    private NetlistCheck() {}

    /**
     * Judges the netlist on the layer images, vias and pins joined as if plated.
     *
     * @return opens and shorts are disagreements of the two files (another revision, or a wrong file)
     */
    public static NetVerdict compare(Netlist netlist, Map<Face, LayerImage> layers, @Nullable DrillFile drill) {
        Map<Face, LayerImage> own = new EnumMap<>(Face.class);
        own.putAll(layers);
        IntendedNets nets = IntendedNets.fromNetlist(netlist, own.keySet());
        List<Join> vias = netlist.points().stream()
                .filter(p -> p.holeMm() != null && own.size() == 2)
                .map(p -> new Join(
                        new Join.End(new foilproof.bench.XyMm(p.xMm(), p.yMm()), Face.TOP),
                        new Join.End(new foilproof.bench.XyMm(p.xMm(), p.yMm()), Face.BOTTOM),
                        java.util.OptionalDouble.empty()))
                .toList();
        return NetJudge.judge(nets, vias, (face, x, y) -> {
            LayerImage layer = own.get(face);
            return layer == null ? -1 : layer.pieces().pieceAt(x, y);
        });
    }
}
