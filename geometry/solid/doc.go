// Package solid is the geometry of upright bodies: pots, shelves, posts and
// probes made of parts, a part being a convex plan skeleton widened by a
// radius that varies with height.
//
//	z |   ____            Profile    radius over height, straight between
//	  |  |    \           Skeleton   point, segment or convex polygon
//	  |   \    |          Part       Skeleton (+) disc(Profile.R(z))
//	  |   /    \          Body       parts that move together
//	  |__|______|_        Placed     a body where it stands
//
// Because every slice is a skeleton widened by a disc, two parts are compared
// by one planar distance and two profiles. From that come:
//
//	Gap        signed distance of two bodies, with witness points
//	Need       the planar distance that keeps a gap: the everyday check
//	Slide      how far to move until a gap is kept
//	Lower      whether one can be let down beside the other
//	Lift       how far a body can be lifted under a shelf; Headroom, GapToSlab
//	Sight      whether a tube is clear; RayHit, the same for picking
//	Volume     of the parts
//
// Lengths are mm, turns degrees clockwise. Bodies do not lean. The package
// knows no ware, no rule and no kiln.
package solid
