#include "scene/drive/piston.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
const ApplyPiston annulus{140 * mm, 104 * mm};
const ReturnSprings springs{14, 6000, 22 * mm, 15 * mm, 10.5 * mm};

} // namespace

TEST_CASE("a piston's area and its springs at home and at apply") {
  CHECK(area_m2(annulus) * 1e6 == Approx(6898.9375).margin(1e-4));
  CHECK(area_m2({40 * mm, 0}) * 1e6 == Approx(1256.637061));
  const SpringBack back = spring_back(springs, 0, 1.2 * mm);
  CHECK(back.home_N == Approx(588));
  CHECK(back.apply_N == Approx(688.8));
  CHECK(back.rate_known);
}

TEST_CASE("springs stand before a stated force, and a stated force acts throughout") {
  CHECK(spring_back(springs, 100, 0).home_N == Approx(588));
  const SpringBack stated = spring_back(std::nullopt, 300, 5 * mm);
  CHECK(stated.home_N == 300);
  CHECK(stated.apply_N == 300);
  CHECK_FALSE(stated.rate_known);
  const SpringBack none = spring_back(std::nullopt, 0, 5 * mm);
  CHECK(none.apply_N == 0);
  CHECK(none.rate_known);
}

TEST_CASE("pressure below the spring moves nothing, and beyond the stroke drives no further") {
  const SpringBack back = spring_back(springs, 0, 1.2 * mm);
  CHECK(moves_at_Pa(annulus, back) == Approx(588 / 6898.9375e-6));
  CHECK(stroked_at_Pa(annulus, back) == Approx(688.8 / 6898.9375e-6));
  CHECK(travel_at_m(annulus, back, 1.2 * mm, 0) == 0);
  CHECK(travel_at_m(annulus, back, 1.2 * mm, 80e3) == 0);
  CHECK(travel_at_m(annulus, back, 1.2 * mm, (588 + 84000 * 0.5 * mm) / area_m2(annulus)) ==
        Approx(0.5 * mm));
  CHECK(travel_at_m(annulus, back, 1.2 * mm, 1e6) == 1.2 * mm);
  const SpringBack none = spring_back(std::nullopt, 0, 1.2 * mm);
  CHECK(travel_at_m(annulus, none, 1.2 * mm, 0) == 0);
  CHECK(travel_at_m(annulus, none, 1.2 * mm, 1) == 1.2 * mm);
}

TEST_CASE("what a piston cannot be is a plain sentence") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(piston_problem(annulus, springs, 0, 1.2 * mm).empty());
  CHECK(piston_problem({}, springs, 0, 0).find("no outer diameter") != std::string::npos);
  CHECK(piston_problem({nan, 0}, springs, 0, 0).find("no outer diameter") != std::string::npos);
  CHECK(piston_problem({100 * mm, 100 * mm}, springs, 0, 0).find("not smaller") !=
        std::string::npos);
  CHECK(piston_problem({100 * mm, -1 * mm}, springs, 0, 0).find("not smaller") !=
        std::string::npos);
  CHECK(piston_problem(annulus, springs, 0, -0.1 * mm).find("more plates are in than fit") !=
        std::string::npos);
  CHECK(piston_problem(annulus, springs, 0, nan).find("below nothing") != std::string::npos);
  // At their solid height to the last bit, and not beyond.
  CHECK(piston_problem(annulus, springs, 0, 4.5 * mm).empty());
  CHECK(piston_problem(annulus, springs, 0, 5 * mm) ==
        "The springs go solid before the piston has closed its pack: 10.00 mm (0.394 in) "
        "is left of their height, and they are solid at 10.50 mm (0.413 in).");
  ReturnSprings loose = springs;
  loose.fitted_m = 23 * mm;
  CHECK(piston_problem(annulus, loose, 0, 0).find("lie loose") != std::string::npos);
  CHECK(piston_problem(annulus, std::nullopt, -1, 0).find("spring force below nothing") !=
        std::string::npos);
}
