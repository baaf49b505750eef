/**
 * Layer images, drill files, netlists, outlines: what was intended, where it lies on the blank, and whether the milled
 * copper agrees.
 *
 * <p>Everything is kept exact: figures are bounded by lines and arcs and never broken into chords. A question about a
 * layer image is answered along scan lines, on which every figure gives its intervals by one division or root per wall:
 *
 * <ol>
 *   <li>{@link foilproof.design.LayerImage#covers} asks the objects at a point, last first: the first that covers it
 *       decides by its polarity;
 *   <li>{@link foilproof.design.LayerImage#rasterise} sets and clears runs of cells in polarity order;
 *   <li>areas and connected pieces come from slabs in which the same outlines bound the same strips, integrated exactly
 *       where walls are straight and by Gauss-Kronrod quadrature elsewhere; objects whose boxes meet no other's are
 *       counted by closed forms.
 * </ol>
 *
 * <p>Readers follow one rule: what is not known is said with its place and left out, what would leave the design
 * undefined is an error. Known limits: objects that overlap by less than 1 um are not told apart from objects that
 * touch; step-and-repeat patterns of drill files and stepped images of netlists are refused or said, not read; negative
 * images are refused; layers so dense that the exact sweep would take seconds are measured on scan lines 5 um apart.
 *
 * <p>Frames: files are read in design coordinates, seen from the top of the board, mm. {@link
 * foilproof.design.Placement} gives the way from there to the blank as it lies on each side.
 */
@NullMarked
package foilproof.design;

import org.jspecify.annotations.NullMarked;
