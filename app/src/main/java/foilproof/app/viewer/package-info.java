/**
 * Draws immutable {@link foilproof.app.viewer.BoardSnapshot}s, always off screen.
 *
 * <p>How a frame comes about: an {@link foilproof.app.viewer.OffscreenRenderer} owns a {@link
 * foilproof.app.viewer.GlContext} without a window on a thread of its own. Height tiles are uploaded once, keyed by
 * identity, into an array texture ({@link foilproof.app.viewer.TileAtlas}); each tool run has a page table that leads
 * from its tiles to their slots. There is no mesh: each pixel's ray is walked through the composed surface min(S, E_k +
 * z0_k - e_k), which is formed anew at every step, so that walls stand upright and holes are round at any size; most rays
 * end at the first look, on foil or on the floor of a groove. The conditions are uniforms, so a moved slider costs one
 * frame. Far off, a moving board is looked up by blocks of cells; close up, upright walls follow the smoothed contour
 * between cells. Smooth edges come from summing frames whose rays are shifted by parts of a pixel. The frame is read back,
 * and {@link foilproof.app.viewer.OverlayPainter} writes words, scales and handles over it as vectors.
 *
 * <p>Frame: millimetres in the blank's frame as it lies with the drawn side's face up, lower-left corner (0,0), Z 0 the
 * nominal foil top, up positive.
 *
 * <p>Known limits: one height per side and tool run, so undercuts are not drawn; at most {@link
 * foilproof.app.viewer.SurfaceUniforms#MAX_RUNS} tool runs meet in one picture.
 */
@NullMarked
package foilproof.app.viewer;

import org.jspecify.annotations.NullMarked;
