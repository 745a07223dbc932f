// One pack, and what each way of measuring it reads.
//
// A feeler gauge at the ring, a depth gauge from a face, a dial indicator with the pack lifted or
// with the piston applied by air: they differ by known amounts. The ring stands up on its load
// face or down in its groove (apart by the groove's width less the ring's thickness); a wave plate
// is free under a light hand and flat when it is pressed; a piston that is held off its seat takes
// as much from every one of them; a gauge bar adds its own thickness. So the same pack gives each
// reading, and a reading given in one way is explained in the others. Common practice, no source.
// Metres. Pure; what cannot be is refused in a plain sentence.
#pragma once

#include "scene/pack/bench_reading.h"
#include "scene/quantity/outcome.h"
#include "scene/quantity/report.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lugline {

enum class PackWay {
  feeler_ring_up,   ///< between ring and last plate, the ring pushed to its load face
  feeler_ring_down, ///< the same, the ring lying on the other face of its groove
  feeler_pressed,   ///< ring up, the pack squeezed until a wave plate lies flat
  depth,            ///< from the face down to the last plate
  dial_lifted,      ///< on the last plate, the pack lifted against the ring
  dial_air          ///< on the piston, air applied: its travel to clamp
};
inline constexpr std::array<PackWay, 6> all_pack_ways{
    PackWay::feeler_ring_up, PackWay::feeler_ring_down, PackWay::feeler_pressed,
    PackWay::depth,          PackWay::dial_lifted,      PackWay::dial_air};
/// "feeler", "feeler ring down", "feeler pressed", "depth", "dial lifted", "dial air": as a person
/// writes it.
std::string word_for(PackWay way);
std::optional<PackWay> pack_way_from(std::string_view word);
/// "feeler at the ring, ring up": as it is told.
std::string words_for(PackWay way);
Instrument instrument_of(PackWay way);

struct NamedThickness {
  std::string label;
  double thickness_m = 0;
};

/// How a pack stands, as far as gauges tell.
struct PackStand {
  std::string id;
  std::string name;
  double clearance_m = 0;   ///< ring up, wave plates free, piston home
  double wave_m = 0;        ///< free less flat, of all wave and dished plates together
  std::string wave_label;   ///< "wave plate"; empty where there is none
  double groove_play_m = 0; ///< the groove's width less the ring's thickness
  double ring_m = 0;        ///< thickness
  double step_m = 0;        ///< by which the last plate's rim stands above where the ring sits
  std::optional<double> face_to_load_m; ///< from the gauge's face down to the groove's load face
  std::string face;                     ///< "upper face of the case"
  double residual_m = 0;                ///< by which the piston is held off its seat
  double bar_m = 0;                     ///< thickness of the gauge bar that lies on the face
  double low_m = 0;                     ///< limits of the clearance
  double high_m = 0;
  bool limits_wave_free = true;
  std::vector<NamedThickness> plates; ///< one of each sort: what may be missing or doubled
};

/// What it reads; empty for the depth where no face is known.
std::optional<double> reads_m(const PackStand& stand, PackWay way);

/// Each way's reading of the pack, with the amounts by which they differ.
CalculationReport ways_report(const PackStand& stand);

struct WayReading {
  PackWay way = PackWay::feeler_ring_up;
  BenchReading read;
};
/// "feeler 0.90 mm", "dial air 1.90 mm, 1.92 mm, 1.88 mm", "depth 23.40 +/- 0.02 mm".
Outcome<WayReading> way_reading_from(const std::string& text);

/// One reading: the clearance that it means, what every other way would read of such a pack,
/// whether that is inside the limits, and where it differs from the sum of the plates what would
/// make just that difference (ring on its other side, wave pressed or not, a plate missing or
/// doubled or the other way up, inches).
CalculationReport explain_reading(const PackStand& stand, const WayReading& reading);

/// The clearance that a reading means; a Problem where it cannot be.
Outcome<ReadResult> clearance_meant(const PackStand& stand, const WayReading& reading);

/// Several readings of one pack beside each other: do they agree within their doubts?
CalculationReport compare_readings(const PackStand& stand, const std::vector<WayReading>& readings);

} // namespace lugline
