// Meshes of round parts against closed forms. Derived closed form, not a publication,
// unless a check says otherwise: the annulus and its n-gon by integration.
#include "scene/mesh/closed.h"

#include "tests/mesh/shapes.h"

#include <catch2/catch.hpp>

using namespace lugline;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double steel_kg_m3 = 7850;

/// What n inscribed segments leave of a circle's area.
double area_ratio(int n) {
  const double step = 2 * pi / n;
  return std::sin(step) / step;
}

/// And of its second moment about the axis.
double moment_ratio(int n) {
  return area_ratio(n) * (2 + std::cos(2 * pi / n)) / 3;
}

double annulus_volume_m3(double outer_m, double inner_m, double thickness_m) {
  return pi * (outer_m * outer_m - inner_m * inner_m) * thickness_m;
}

} // namespace

// Derived closed form, not a publication: V = pi (R² - r²) t; A = 2 pi (R² - r²) + 2 pi (R + r) t;
// Izz = m (R² + r²)/2; Ixx = m (3 (R² + r²) + t²)/12 about the middle. R 80, r 60, t 2 mm.
TEST_CASE("an annulus of R 80 r 60 t 2 mm approaches its closed form") {
  // Facets fall short by the square of the step: at 20000 of them by less than 2e-8.
  const BodyFigures figures = body_figures(shapes::ring(0.08, 0.06, 0.002, 20000));
  const double within = 5e-8;
  CHECK(figures.volume_m3 * 1e9 == Approx(17592.918860).epsilon(within));
  CHECK(figures.surface_m2 * 1e6 == Approx(19352.210746).epsilon(within));
  CHECK(figures.volume_m3 * steel_kg_m3 == Approx(0.1381044).epsilon(3e-7)); // seven printed digits
  CHECK(figures.about_axis_m5() * steel_kg_m3 == Approx(6.905221e-4).epsilon(3e-7));
  const double middle_z2 = figures.squares_m5.z - figures.volume_m3 * 0.001 * 0.001;
  CHECK((figures.squares_m5.y + middle_z2) * steel_kg_m3 == Approx(3.453071e-4).epsilon(3e-7));
  CHECK(figures.centroid_m.z == Approx(0.001).epsilon(1e-12));
  CHECK(std::abs(figures.centroid_m.x) < 1e-15);
}

// Derived closed form, not a publication: with inscribed segments of step s = 2 pi/n,
// V/V_exact = sin s/s and Izz/Izz_exact = (sin s/s)(2 + cos s)/3.
TEST_CASE("a mesh of n segments has the n-gon's own volume and second moment") {
  struct Row {
    int n;
    double volume;
    double moment;
  };
  const Row rows[] = {{3, 0.4134966716, 0.2067483358},
                      {24, 0.9886159295, 0.9773871725},
                      {64, 0.9983943930, 0.9967918791},
                      {128, 0.9995984531, 0.9991970998},
                      {360, 0.9999492312, 0.9998984655}};
  const double volume_m3 = annulus_volume_m3(0.08, 0.06, 0.002);
  const double moment_m5 = volume_m3 * (0.08 * 0.08 + 0.06 * 0.06) / 2;
  for (const Row& row : rows) {
    CAPTURE(row.n);
    const BodyFigures figures = body_figures(shapes::ring(0.08, 0.06, 0.002, row.n));
    CHECK(figures.volume_m3 / volume_m3 == Approx(row.volume).margin(6e-11));
    CHECK(figures.about_axis_m5() / moment_m5 == Approx(row.moment).margin(6e-11));
    CHECK(figures.volume_m3 / volume_m3 == Approx(area_ratio(row.n)).epsilon(1e-13));
    CHECK(figures.about_axis_m5() / moment_m5 == Approx(moment_ratio(row.n)).epsilon(1e-13));
  }
}

// Derived closed form, not a publication: a lug (annular sector, R to Ro, angle b) has the
// area b (Ro² - R²)/2, its centroid at 2 sin(b/2)(Ro³ - R³)/(3 (b/2)(Ro² - R²)) and adds
// b (Ro⁴ - R⁴)/4 to the polar moment of area. In n segments of step s = b/n area and moment
// keep a circle's own ratios, and the centroid (s/2)/tan(s/2).
TEST_CASE("a lug has its closed form's area, centroid and moment, and its segments' own") {
  const double outer_m = 0.0775;
  const double inner_m = 0.0705;
  const double thick_m = 0.002;
  const auto power = [](double a, int n) { return std::pow(a, n); };
  for (const double angle_rad : {0.05, 0.9, 3.0}) {
    const double area_m2 = angle_rad * (power(outer_m, 2) - power(inner_m, 2)) / 2;
    const double polar_m4 = angle_rad * (power(outer_m, 4) - power(inner_m, 4)) / 4;
    const double middle_m = 2 * std::sin(angle_rad / 2) * (power(outer_m, 3) - power(inner_m, 3)) /
                            (3 * angle_rad / 2 * (power(outer_m, 2) - power(inner_m, 2)));
    for (const int n : {1, 4, 50, 2000}) {
      const double step = angle_rad / n;
      const Mesh mesh = shapes::lug(outer_m, inner_m, thick_m, angle_rad, n);
      const BodyFigures figures = body_figures(mesh);
      CAPTURE(angle_rad, n);
      CHECK(closed_report(weld(mesh)).closed());
      CHECK(closed_report(weld(mesh)).euler() == 2);
      CHECK(figures.volume_m3 / thick_m == Approx(area_m2 * std::sin(step) / step).epsilon(1e-11));
      CHECK(figures.about_axis_m5() / thick_m ==
            Approx(polar_m4 * std::sin(step) / step * (2 + std::cos(step)) / 3).epsilon(1e-11));
      CHECK(std::hypot(figures.centroid_m.x, figures.centroid_m.y) ==
            Approx(middle_m * step / 2 / std::tan(step / 2)).epsilon(1e-11));
      // On the lug's centre line.
      CHECK(std::atan2(-figures.centroid_m.x, figures.centroid_m.y) ==
            Approx(angle_rad / 2).epsilon(1e-9));
      if (n == 2000) {
        CHECK(figures.volume_m3 / thick_m == Approx(area_m2).epsilon(1e-6));
        CHECK(figures.about_axis_m5() / thick_m == Approx(polar_m4).epsilon(1e-6));
      }
    }
  }
}

// Derived: the ratios above are 1 - s²/6, 1 - s²/3 and 1 - s²/12 to first order.
TEST_CASE("facets fall short by the square of their step") {
  const auto order = [](double coarse, double fine) { return std::log2(coarse / fine); };
  const double volume_m3 = annulus_volume_m3(0.08, 0.06, 0.002);
  const double moment_m5 = volume_m3 * (0.08 * 0.08 + 0.06 * 0.06) / 2;
  for (int n = 24; n <= 384; n *= 2) {
    const BodyFigures once = body_figures(shapes::ring(0.08, 0.06, 0.002, n));
    const BodyFigures twice = body_figures(shapes::ring(0.08, 0.06, 0.002, 2 * n));
    CAPTURE(n);
    CHECK(order(1 - once.volume_m3 / volume_m3, 1 - twice.volume_m3 / volume_m3) ==
          Approx(2).margin(0.01));
    CHECK(order(1 - once.about_axis_m5() / moment_m5, 1 - twice.about_axis_m5() / moment_m5) ==
          Approx(2).margin(0.02));
  }
}

// Derived, not a publication: 4n vertices, 12n edges, 8n triangles, Euler 0.
TEST_CASE("a ring prism has a ring's topology") {
  for (const int n : {3, 24, 360}) {
    const ClosedReport report = closed_report(weld(shapes::ring(0.08, 0.06, 0.002, n)));
    CAPTURE(n);
    CHECK(report.closed());
    CHECK(report.manifold());
    CHECK(report.vertices == 4 * n);
    CHECK(report.edges == 12 * n);
    CHECK(report.triangles == 8 * n);
    CHECK(report.euler() == 0);
  }
}

// Derived closed form, not a publication: a flat disc-spring blank 50 x 25.4 x 3 mm,
// 4370.3638 mm³ and 34.307 g.
TEST_CASE("a disc-spring blank weighs what its closed form says") {
  const int n = 4000;
  const BodyFigures figures = body_figures(shapes::ring(0.025, 0.0127, 0.003, n));
  const double volume_m3 = figures.volume_m3 / area_ratio(n);
  CHECK(volume_m3 * 1e9 == Approx(4370.3638).margin(6e-5));
  CHECK(volume_m3 * steel_kg_m3 * 1e3 == Approx(34.307).margin(6e-4));
}

// Pappus: V = 2 pi r̄ A of the section. A right triangle of radius R and height h has
// r̄ = R/3 and A = R h/2, so V = pi R² h/3; the n-gon keeps sin s/s of it.
TEST_CASE("a cone has the volume that Pappus gives its section") {
  for (const int n : {5, 48, 720}) {
    const BodyFigures figures = body_figures(shapes::cone(0.03, 0.05, n));
    const double pappus_m3 = 2 * pi * (0.03 / 3) * (0.03 * 0.05 / 2);
    CAPTURE(n);
    CHECK(figures.volume_m3 == Approx(pappus_m3 * area_ratio(n)).epsilon(1e-12));
    CHECK(figures.centroid_m.z == Approx(0.05 / 4).epsilon(1e-12));
  }
}

// Unit mistake: figures in millimetres taken for metres are out by 1e9, and no tolerance hides it.
TEST_CASE("millimetres taken for metres show in the volume") {
  const BodyFigures wrong = body_figures(shapes::ring(80, 60, 2, 360));
  const BodyFigures right = body_figures(shapes::ring(0.08, 0.06, 0.002, 360));
  CHECK(wrong.volume_m3 / right.volume_m3 == Approx(1e9));
}
