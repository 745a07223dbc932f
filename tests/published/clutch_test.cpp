// Disc clutches against worked examples of textbooks; the source stands beside each check.
// "By the companion": the digits are those that an open companion of the named book prints for the
// example of that number (read there), not read in the book itself. What is from memory says so
// and is no published check.

#include "scene/drive/capacity.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace lugline;

namespace {

constexpr double mm = 1e-3;
constexpr double inch = 25.4 * mm;
constexpr double pi = std::numbers::pi;
constexpr double rpm = pi / 30;
constexpr double one_MPa = 1e6;
constexpr double psi = 6894.757293168;
constexpr double lbf = 4.4482216152605;

} // namespace

TEST_CASE("one disc by uniform wear: Bhandari, Design of Machine Elements, example 11.1") {
  // By the companion: d 100, D 200 mm, mu 0.2, 1 MPa, 750 rpm: P = 15707.963268 N,
  // Mf = 235619.449019 N mm, 18.505508 kW.
  const double clamp_N = wear_clamp_N(1 * one_MPa, 200 * mm, 100 * mm);
  CHECK(clamp_N == Approx(15707.963268).epsilon(1e-10));
  const double torque_Nm = disc_torque_Nm(clamp_N, 1, 0.2, wear_mean_radius_m(200 * mm, 100 * mm));
  CHECK(torque_Nm * 1e3 == Approx(235619.449019).epsilon(1e-11));
  CHECK(torque_Nm * 750 * rpm / 1e3 == Approx(18.505508).margin(5e-7));
}

TEST_CASE("the same by uniform pressure: Bhandari, example 11.2") {
  // By the companion: P = 23561.944902 N, Mf = 366519.142919 N mm, 28.786346 kW.
  const double clamp_N = pressure_clamp_N(1 * one_MPa, 200 * mm, 100 * mm);
  CHECK(clamp_N == Approx(23561.944902).epsilon(1e-10));
  const double torque_Nm =
      disc_torque_Nm(clamp_N, 1, 0.2, pressure_mean_radius_m(200 * mm, 100 * mm));
  CHECK(torque_Nm * 1e3 == Approx(366519.142919).epsilon(1e-11));
  CHECK(torque_Nm * 750 * rpm / 1e3 == Approx(28.786346).margin(5e-7));
}

TEST_CASE("a plate clutch of two faces that carries 550 N m: Bhandari, example 11.3") {
  // By the companion: mu 0.25, 0.5 MPa, D 250 mm: d = 174.166181 mm, P = 10373.292814 N.
  const double inner_m = 174.166181 * mm;
  const double clamp_N = wear_clamp_N(0.5 * one_MPa, 250 * mm, inner_m);
  CHECK(clamp_N == Approx(10373.292814).margin(5e-5));
  CHECK(disc_torque_Nm(clamp_N, 2, 0.25, wear_mean_radius_m(250 * mm, inner_m)) ==
        Approx(550).margin(1e-5));
}

TEST_CASE("new, run in and worn: Bhandari, example 11.6") {
  // By the companion: 250 N m on two faces, mu 0.35, 175/250 mm, nine springs of 800 N at 5 mm:
  // factor of safety 2.164235 new (uniform pressure), 2.142000 run in (uniform wear); the lining
  // may wear by 2.665733 mm before it slips.
  const double new_Nm = disc_torque_Nm(9 * 800, 2, 0.35, pressure_mean_radius_m(0.25, 0.175));
  const double run_in_Nm = disc_torque_Nm(9 * 800, 2, 0.35, wear_mean_radius_m(0.25, 0.175));
  CHECK(new_Nm / 250 == Approx(2.164235).margin(5e-7));
  CHECK(run_in_Nm / 250 == Approx(2.142000).margin(5e-7));
  const double rate_N_per_m = 9 * 800 / (5 * mm);
  const double left_N = rate_N_per_m * (5 - 2.665733) * mm;
  CHECK(disc_torque_Nm(left_N, 2, 0.35, wear_mean_radius_m(0.25, 0.175)) ==
        Approx(250).margin(1e-4));
}

TEST_CASE("faces that a small clutch needs: Bhandari, example 11.7") {
  // By the companion: 10 N m, mu 0.2, 0.1 MPa, 65/95 mm: P = 306.305284 N; with 5 % for the slots,
  // five faces.
  const double clamp_N = wear_clamp_N(0.1 * one_MPa, 95 * mm, 65 * mm);
  CHECK(clamp_N == Approx(306.305284).margin(5e-7));
  CHECK(least_surfaces(10 * 1.05, clamp_N, 0.2, wear_mean_radius_m(95 * mm, 65 * mm)) == 5);
}

TEST_CASE("five steel and four bronze plates: Bhandari, example 11.8") {
  // By the companion: d 75, D 150 mm, mu 0.1, 0.3 MPa, 750 rpm: P = 2650.718801 N, z = 8,
  // Mf = 119282.346066 N mm, 9.368414 kW.
  const int faces = 5 + 4 - 1;
  const double clamp_N = wear_clamp_N(0.3 * one_MPa, 150 * mm, 75 * mm);
  CHECK(clamp_N == Approx(2650.718801).margin(5e-7));
  const double torque_Nm =
      disc_torque_Nm(clamp_N, faces, 0.1, wear_mean_radius_m(150 * mm, 75 * mm));
  CHECK(torque_Nm * 1e3 == Approx(119282.346066).epsilon(1e-11));
  CHECK(torque_Nm * 750 * rpm / 1e3 == Approx(9.368414).margin(5e-7));
}

TEST_CASE("discs of an oil-immersed clutch: Bhandari, example 11.9") {
  // By the companion: 75 N m, mu 0.1, 500 kPa, D 100, d 57.7 mm: P = 1916.929151 N, eleven discs.
  const double clamp_N = wear_clamp_N(0.5 * one_MPa, 100 * mm, 57.7 * mm);
  CHECK(clamp_N == Approx(1916.929151).margin(5e-7));
  const int faces = least_surfaces(75, clamp_N, 0.1, wear_mean_radius_m(100 * mm, 57.7 * mm));
  CHECK(faces + 1 == 11);
}

TEST_CASE("pressures over a lining: Khurmi and Gupta, Theory of Machines, example 10.22") {
  // By the companion: 4 kN on radii 50 and 100 mm, uniform wear: 0.2546 most, 0.1273 least,
  // 0.17 N/mm2 mean.
  CHECK(wear_lining_Pa(4000, 200 * mm, 100 * mm, 100 * mm) / one_MPa ==
        Approx(0.2546).margin(5e-5));
  CHECK(wear_lining_Pa(4000, 200 * mm, 100 * mm, 200 * mm) / one_MPa ==
        Approx(0.1273).margin(5e-5));
  CHECK(4000 / pressure_clamp_N(1, 200 * mm, 100 * mm) / one_MPa == Approx(0.17).margin(5e-3));
}

TEST_CASE("power of four faces: Khurmi and Gupta, example 10.28") {
  // By the companion: mu 0.3, 0.127 N/mm2, radii 125 and 75 mm, 500 rpm: 18.8 kW.
  const double clamp_N = wear_clamp_N(0.127 * one_MPa, 250 * mm, 150 * mm);
  const double torque_Nm = disc_torque_Nm(clamp_N, 4, 0.3, wear_mean_radius_m(250 * mm, 150 * mm));
  CHECK(torque_Nm * 500 * rpm / 1e3 == Approx(18.8).margin(0.05));
}

TEST_CASE("lining pressure for 25 kW: Khurmi and Gupta, example 10.29") {
  // By the companion: three and two discs, mu 0.3, 240/120 mm, 1575 rpm: 0.062 N/mm2.
  const double torque_Nm = 25e3 / (1575 * rpm);
  const double clamp_N =
      torque_Nm / disc_torque_Nm(1, 3 + 2 - 1, 0.3, wear_mean_radius_m(240 * mm, 120 * mm));
  CHECK(wear_lining_Pa(clamp_N, 240 * mm, 120 * mm, 120 * mm) / one_MPa ==
        Approx(0.062).margin(5e-4));
}

TEST_CASE("a worn clutch loses spring load: Khurmi and Gupta, example 10.30") {
  // By the companion: 25 kW at 1575 rpm, 240/120 mm, mu 0.3, four faces by uniform pressure take
  // 1353 N; when eight faces have worn by 1.25 mm each and six springs of 13 kN/m have relaxed by
  // that much, 10.21 kW are left by uniform wear.
  const double torque_Nm = 25e3 / (1575 * rpm);
  const double clamp_N =
      torque_Nm / disc_torque_Nm(1, 4, 0.3, pressure_mean_radius_m(240 * mm, 120 * mm));
  CHECK(clamp_N == Approx(1353).margin(0.5));
  const double left_N = clamp_N - 6 * 13e3 * 8 * 1.25 * mm;
  const double worn_Nm = disc_torque_Nm(left_N, 4, 0.3, wear_mean_radius_m(240 * mm, 120 * mm));
  CHECK(worn_Nm * 1575 * rpm / 1e3 == Approx(10.21).margin(0.005));
}

TEST_CASE("three discs for 6 hp: Juvinall and Marshek, Fundamentals of Machine Component Design") {
  // Read in a public page of a solution: 200 rpm, twice the torque, 5/7 in, 225 psi allowed, f 0.2:
  // two faces (three discs), 3150 lb, 200 psi at the inner and 143 psi at the outer edge.
  const double torque_Nm = 2 * 6 * 745.69987158227022 / (200 * rpm);
  const double radius_m = wear_mean_radius_m(7 * inch, 5 * inch);
  const int faces =
      least_surfaces(torque_Nm, wear_clamp_N(225 * psi, 7 * inch, 5 * inch), 0.2, radius_m);
  CHECK(faces == 2);
  const double clamp_N = torque_Nm / disc_torque_Nm(1, faces, 0.2, radius_m);
  CHECK(clamp_N / lbf == Approx(3150).margin(5));
  // The printed 200 is rounded to two figures; it works out as 200.6.
  CHECK(wear_lining_Pa(clamp_N, 7 * inch, 5 * inch, 5 * inch) / psi == Approx(200).margin(1));
  CHECK(wear_lining_Pa(clamp_N, 7 * inch, 5 * inch, 7 * inch) / psi == Approx(143).margin(0.5));
}

TEST_CASE("a hydraulic multi-disc clutch: Shigley, problem of chapter 16 (from memory)") {
  // D 6.5, d 4 in, f 0.24, 120 psi, six faces, uniform wear: 1885 lbf, 7125 lbf in; for d of 2, 3,
  // 4, 5, 6 in: 5191, 6769, 7125, 5853, 2545 lbf in.
  const auto torque_lbf_in = [](double inner_in) {
    const double clamp_N = wear_clamp_N(120 * psi, 6.5 * inch, inner_in * inch);
    return disc_torque_Nm(clamp_N, 6, 0.24, wear_mean_radius_m(6.5 * inch, inner_in * inch)) /
           (lbf * inch);
  };
  CHECK(wear_clamp_N(120 * psi, 6.5 * inch, 4 * inch) / lbf == Approx(1885).margin(0.5));
  CHECK(torque_lbf_in(2) == Approx(5191).margin(0.5));
  CHECK(torque_lbf_in(3) == Approx(6769).margin(0.5));
  CHECK(torque_lbf_in(4) == Approx(7125).margin(0.5));
  CHECK(torque_lbf_in(5) == Approx(5853).margin(0.5));
  CHECK(torque_lbf_in(6) == Approx(2545).margin(0.5));
  // Derived, no publication: at a fixed lining pressure the most torque is at d/D = 1/sqrt(3).
  const double best_in = 6.5 / std::sqrt(3.0);
  CHECK(torque_lbf_in(best_in) == Approx(7172.9).margin(0.05));
  CHECK(torque_lbf_in(best_in) > torque_lbf_in(best_in - 0.01));
  CHECK(torque_lbf_in(best_in) > torque_lbf_in(best_in + 0.01));
}
