// One pack read in each way, and a reading explained in the others.

#include "scene/pack/ways.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;

/// 0.90 of clearance, a wave plate of 2.80 that is 1.80 flat, a ring of 2.00 in a groove of 2.50, a
/// backing plate with 0.60 of step, the groove's load face 38.00 below the case's face.
PackStand pack() {
  PackStand stand;
  stand.id = "CC";
  stand.name = "Case clutch";
  stand.clearance_m = 0.90 * mm;
  stand.wave_m = 1.00 * mm;
  stand.wave_label = "wave plate";
  stand.groove_play_m = 0.50 * mm;
  stand.ring_m = 2.00 * mm;
  stand.step_m = 0.60 * mm;
  stand.face_to_load_m = 38.00 * mm;
  stand.face = "upper face of the case";
  stand.low_m = 0.75 * mm;
  stand.high_m = 1.25 * mm;
  stand.plates = {{"steel", 1.50 * mm}, {"friction", 1.60 * mm}};
  return stand;
}

double reading_mm(const PackStand& stand, PackWay way) {
  return reads_m(stand, way).value() / mm;
}

WayReading read(const std::string& text) {
  auto reading = way_reading_from(text);
  INFO(text << (reading ? "" : ": " + reading.problem()));
  REQUIRE(reading);
  return std::move(reading).value();
}

bool tells(const CalculationReport& report, const std::string& words) {
  const auto lines = lines_of(report, LengthUnit::millimetre);
  return std::ranges::any_of(
      lines, [&](const std::string& line) { return line.find(words) != std::string::npos; });
}

} // namespace

TEST_CASE("the same pack by each way, by hand") {
  const PackStand stand = pack();
  CHECK(reading_mm(stand, PackWay::feeler_ring_up) == Approx(0.90));
  CHECK(reading_mm(stand, PackWay::feeler_ring_down) == Approx(0.40)); // 0.50 short
  CHECK(reading_mm(stand, PackWay::feeler_pressed) == Approx(1.90));
  CHECK(reading_mm(stand, PackWay::dial_lifted) == Approx(0.90));
  CHECK(reading_mm(stand, PackWay::dial_air) == Approx(1.90));
  CHECK(reading_mm(stand, PackWay::depth) == Approx(38.00 + 2.00 + 0.90 - 0.60));
}

TEST_CASE("a piston held off its seat takes from every way, a bar adds to the depth alone") {
  PackStand stand = pack();
  stand.residual_m = 0.20 * mm;
  stand.bar_m = 6.00 * mm;
  CHECK(reading_mm(stand, PackWay::feeler_ring_up) == Approx(0.70));
  CHECK(reading_mm(stand, PackWay::dial_air) == Approx(1.70));
  CHECK(reading_mm(stand, PackWay::depth) == Approx(46.10));
}

TEST_CASE("without a face no depth is told, and without a wave plate nothing gives") {
  PackStand stand = pack();
  stand.face_to_load_m.reset();
  stand.wave_m = 0;
  stand.wave_label.clear();
  CHECK_FALSE(reads_m(stand, PackWay::depth));
  CHECK(reading_mm(stand, PackWay::dial_air) == Approx(0.90));
  CHECK(ways_report(stand).results.size() == 5);
  CHECK(explain_reading(stand, read("depth 40.30 mm")).verdict == ReportVerdict::refused);
}

TEST_CASE("a reading in one way means the same pack in every other") {
  // Property: what a pack reads by one way, explained, gives its reading by every other way.
  const PackStand nominal = pack();
  PackStand real = nominal;
  for (const double clearance_mm : {0.50, 0.90, 1.10, 1.60}) {
    real.clearance_m = clearance_mm * mm;
    for (const PackWay way : all_pack_ways) {
      const WayReading reading{way, {"", {reads_m(real, way).value()}, instrument_of(way)}};
      const auto meant = clearance_meant(nominal, reading);
      if (reads_m(real, way).value() < 0.05 * mm) {
        continue;
      }
      REQUIRE(meant);
      CHECK(meant.value().corrected_m / mm == Approx(clearance_mm));
      const CalculationReport report = explain_reading(nominal, reading);
      for (const ReportLine& line : report.results) {
        for (const PackWay other : all_pack_ways) {
          if (line.what == "by " + words_for(other)) {
            CHECK(line.si / mm == Approx(reading_mm(real, other)).margin(1e-9));
          }
        }
      }
    }
  }
}

TEST_CASE("a reading that differs by just one known amount says of what") {
  const PackStand stand = pack();
  CHECK(tells(explain_reading(stand, read("feeler 0.40 mm")), "the ring on the other side"));
  CHECK(tells(explain_reading(stand, read("feeler 1.90 mm")), "squeezed flat while reading"));
  CHECK(tells(explain_reading(stand, read("dial air 0.90 mm")), "not pressed flat"));
  CHECK(tells(explain_reading(stand, read("feeler 2.50 mm")), "one friction missing"));
  CHECK(tells(explain_reading(stand, read("feeler 0.30 mm")), "the last plate the other way up"));
  CHECK(tells(explain_reading(stand, read("feeler 0.91 mm")), "agrees with the sum"));
  CHECK(tells(explain_reading(stand, read("feeler 0.75 mm")), "a seal holds the piston off"));
  CHECK(tells(explain_reading(stand, read("depth 40.90 mm")), "the rod on the step"));
}

TEST_CASE("verdicts are by the limits as they are stated, wave free or flat") {
  PackStand stand = pack();
  CHECK(explain_reading(stand, read("feeler 0.90 mm")).verdict == ReportVerdict::good);
  CHECK(explain_reading(stand, read("feeler 1.60 mm")).verdict == ReportVerdict::bad);
  stand.limits_wave_free = false;
  stand.low_m = 1.80 * mm;
  stand.high_m = 2.00 * mm;
  CHECK(explain_reading(stand, read("dial air 1.90 mm")).verdict == ReportVerdict::good);
  CHECK(clearance_meant(stand, read("feeler 0.90 mm")).value().corrected_m / mm == Approx(1.90));
}

TEST_CASE("inches written as millimetres are asked about, nothing is worked out of them") {
  const PackStand stand = pack();
  const CalculationReport report = explain_reading(stand, read("feeler 0.035 mm"));
  CHECK(report.verdict == ReportVerdict::refused);
  CHECK(report.verdict_words.find("was it inches?") != std::string::npos);
  CHECK(explain_reading(stand, read("feeler 0.90 in")).verdict == ReportVerdict::refused);
  CHECK(explain_reading(stand, read("feeler 0.035 in")).verdict == ReportVerdict::good);
}

TEST_CASE("readings that contradict each other") {
  const PackStand stand = pack();
  const auto agree = compare_readings(stand, {read("feeler 0.92 mm"), read("dial air 1.90 mm")});
  CHECK(agree.verdict == ReportVerdict::good);
  const auto not_agree =
      compare_readings(stand, {read("feeler 0.40 mm"), read("dial lifted 0.90 mm")});
  CHECK(not_agree.verdict == ReportVerdict::bad);
  CHECK(tells(not_agree, "contradict"));
  CHECK(tells(not_agree, "ring's play in its groove"));
  CHECK(compare_readings(stand, {read("feeler 0.40 mm")}).verdict == ReportVerdict::refused);
}

TEST_CASE("ways of measuring are read as people write them") {
  CHECK(read("feeler ring down 0.40 mm").way == PackWay::feeler_ring_down);
  const WayReading three = read("dial air 1.90 mm, 1.92 mm,1.88 mm");
  CHECK(three.read.places_m.size() == 3);
  CHECK(read("depth 23.40 +/- 0.02 mm").read.plus_minus_m / mm == Approx(0.02));
  for (const char* wrong : {"", "feeler", "0.90 mm", "ruler 0.90 mm", "feeler 0.90",
                            "feeler 0,9 mm", "feeler 0.90 mm,", "feeler -0.90 kPa"}) {
    INFO(wrong);
    CHECK_FALSE(way_reading_from(wrong));
  }
}

TEST_CASE("a pack that is fuller than its room reads below nothing, and is told so") {
  PackStand stand = pack();
  stand.clearance_m = -0.30 * mm;
  CHECK(tells(ways_report(stand), "no blade enters"));
  CHECK(tells(ways_report(stand), "-0.30 mm"));
}
