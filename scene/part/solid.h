// A component's solid, as the drop sees it: sector rings.
//
// A sector ring is a radius range, a set of angle sectors and a height range.
// A friction plate is one full ring and as many small sectors as it has teeth;
// a case is a bore, a land, slots and a groove. Lengths are metres, angles are
// radians, positive counter-clockwise seen from the +z end, 0 at 12 o'clock
// (the +y axis: a point at radius r and angle a is x = -r sin a, y = r cos a).
// z points up, along the axis, and is 0 at the part's datum face. All plain values.
#pragma once

#include <string>
#include <vector>

namespace lugline {

/// One side of a sector: at radius r it stands at angle_rad + asin(offset_m / r).
/// Offset 0 is a radial flank; a lug of width w about angle c with parallel
/// flanks has the flanks {c, -w/2} and {c, +w/2}.
struct Flank {
  double angle_rad = 0;
  double offset_m = 0;

  /// The flank's angle at radius r_m, in radians; r_m must be at least |offset_m|.
  [[nodiscard]] double at(double r_m) const;
};

/// Solid counter-clockwise from one flank to the other. At every radius of its
/// ring 0 < to - from < 2 pi; angles need not be reduced to one turn.
struct Sector {
  Flank from;
  Flank to;
};

/// A sector of width_m between parallel flanks, centred on angle_rad.
Sector parallel_sector(double angle_rad, double width_m);
/// A sector of angle width_rad between radial flanks, centred on angle_rad.
Sector radial_sector(double angle_rad, double width_rad);

struct SectorRing {
  double inner_m = 0;          ///< radius
  double outer_m = 0;          ///< radius, > inner_m
  double low_m = 0;            ///< height of its lower face
  double high_m = 0;           ///< height of its upper face, > low_m
  std::vector<Sector> sectors; ///< empty: the full circle. Else disjoint, by rising angle.
  std::string feature;  ///< what a person calls it: "wide lug", "tooth", "floor"; may be empty
  std::string material; ///< empty: the component's own

  [[nodiscard]] bool full() const { return sectors.empty(); }
};

/// Rings of one solid may touch but do not overlap.
struct Solid {
  std::vector<SectorRing> rings;

  [[nodiscard]] double low_m() const;   ///< lowest face; 0 for no rings
  [[nodiscard]] double high_m() const;  ///< highest face; 0 for no rings
  [[nodiscard]] double outer_m() const; ///< largest radius; 0 for no rings
};

/// The sectors between the given ones: what is left of the circle.
/// slots must be disjoint and by rising angle.
std::vector<Sector> between(const std::vector<Sector>& slots);

/// count equal sectors, the first centred on first_rad.
std::vector<Sector> repeated(Sector first, int count);

/// Turned over about the 12 o'clock axis, half a turn, then raised so that it
/// takes up the same heights as before: angle a becomes -a, z becomes
/// low + high - z.
Solid turned_over(const Solid& solid);

/// z moved by delta where it is above the zone, in proportion inside the zone,
/// and left alone below it: a measured thickness in place of the nominal one.
Solid stretched(const Solid& solid, double zone_low_m, double zone_high_m, double delta_m);
double stretched_height(double z_m, double zone_low_m, double zone_high_m, double delta_m);

} // namespace lugline
