package foilproof.design;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * An aperture of a layer image: a figure that is flashed, or a block of objects.
 *
 * @param shape its shape; the one of a block is not used
 * @param figure what a flash shows, about the aperture's zero
 * @param penRadiusMm radius of the round pen that a stroke uses, mm, below 0 where strokes cannot be drawn with it
 * @param corners corners of a convex polygon (x, y pairs) that older files draw straight strokes with, or null
 * @param block objects of a block aperture, or null
 * @param attributes aperture attributes (TA) in force where it was defined
 */
record Aperture(
        Pad.Shape shape,
        Figure figure,
        double penRadiusMm,
        double @Nullable [] corners,
        LayerImage.@Nullable Builder block,
        Map<String, List<String>> attributes) {}
