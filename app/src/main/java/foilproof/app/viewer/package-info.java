/**
 * Draws immutable {@link foilproof.app.viewer.BoardSnapshot}s, always off screen.
 *
 * <p>How a frame comes about: an {@link foilproof.app.viewer.OffscreenRenderer} owns a {@link
 * foilproof.app.viewer.GlContext} without a window on a thread of its own. Height tiles are uploaded once, keyed by
 * identity, into an array texture ({@link foilproof.app.viewer.TileAtlas}); each tool run has a page table that leads
 * from its tiles to their slots. The composed surface min(S, E_k + z0_k - e_k) is formed in the shader for every vertex
 * and again, at full resolution, for every pixel; the conditions are uniforms, so a moved slider costs one frame. The
 * ground is drawn as instanced patches of 32 x 32 quads whose size follows the distance; smooth edges come from summing
 * frames whose camera is shifted by parts of a pixel. The frame is read back, and {@link
 * foilproof.app.viewer.OverlayPainter} writes words, scales and handles over it as vectors.
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
