#include "scene/drive/diagnose.h"

#include "scene/drive/behaviour.h"
#include "scene/drive/train_words.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace lugline {

namespace {

std::string name_of_range(const Drive& drive, const std::string& id) {
  const DriveRange* range = drive.range(id);
  return range == nullptr || range->name.empty() ? id : range->name;
}

std::string pressure_words(double gauge_Pa) {
  return print_figure(FigureOf::pressure, gauge_Pa, LengthUnit::millimetre);
}

// What a reading means, once it is held to its range's line.
enum class ReadingSays { full, low, none, where_it_should_not };

struct JudgedReading {
  PressureReading reading;
  double line_Pa = 0;
  ReadingSays says = ReadingSays::full;
};

// Why one set of faults does not fit what was reported.
struct Fit {
  std::string contradicted; ///< by this report; empty: by none
  std::string unexplained;  ///< the first report that it leaves open
  int explained = 0;        ///< reports that it does explain
  std::vector<std::string> besides;

  [[nodiscard]] bool fits() const { return contradicted.empty() && unexplained.empty(); }
};

// Candidates that differ only in how much is left, the least harm first.
using Candidate = std::vector<Fault>;

class Detective {
public:
  Detective(const Drive& drive, const ElementPacks& packs,
            const std::vector<DriverSymptom>& symptoms, const DiagnosisRules& rules)
      : drive_(drive), symptoms_(symptoms), rules_(rules), behaviours_(drive, packs) {}

  /// A sentence where a reading cannot be taken; it is then left out.
  std::string take(const PressureReading& reading);
  Diagnosis run();

private:
  [[nodiscard]] std::vector<Candidate> candidates() const;
  [[nodiscard]] std::vector<Fault> leaks_of(const std::string& element) const;
  [[nodiscard]] Fit fit_of(const std::vector<Fault>& faults,
                           const std::vector<RangeBehaviour>& ranges) const;
  void fit_symptoms(const std::vector<RangeBehaviour>& ranges, Fit& fit) const;
  void fit_readings(const std::vector<Fault>& faults, Fit& fit) const;
  [[nodiscard]] bool open_reading(const JudgedReading& judged) const;
  [[nodiscard]] std::string named(const Candidate& candidate, const Fault& fault) const;
  void keep(std::vector<Fault> faults, std::vector<RangeBehaviour> ranges, const Fit& fit,
            Diagnosis& diagnosis) const;
  void try_pairs(const std::vector<std::vector<Fault>>& useful, Diagnosis& diagnosis);
  void rank(Diagnosis& diagnosis) const;
  [[nodiscard]] bool anything_open() const;

  const Drive& drive_;
  const std::vector<DriverSymptom>& symptoms_;
  const DiagnosisRules& rules_;
  Behaviours behaviours_;
  std::vector<JudgedReading> readings_;
};

std::string Detective::take(const PressureReading& reading) {
  const DriveRange& range = *drive_.range(reading.range);
  const std::string where =
      name_of_element(drive_, reading.element) + " in " + name_of_range(drive_, reading.range);
  if (range.duties.empty() || range.duties.front().line_Pa <= 0) {
    return "The reading at " + where + " is left out: no line pressure is stated for that range.";
  }
  JudgedReading judged{reading, range.duties.front().line_Pa, ReadingSays::full};
  const double share = reading.gauge_Pa / judged.line_Pa;
  const bool applied = std::ranges::find(range.on, reading.element) != range.on.end();
  if (!applied) {
    if (share <= rules_.none_share) {
      return {}; // as it should be
    }
    judged.says = ReadingSays::where_it_should_not;
  } else if (share < rules_.full_share) {
    judged.says = share <= rules_.none_share ? ReadingSays::none : ReadingSays::low;
  }
  readings_.push_back(judged);
  return {};
}

std::vector<Fault> Detective::leaks_of(const std::string& element) const {
  std::vector<Fault> leaks;
  Fault read{FaultKind::leaking, element, 1, {}};
  double least = 1;
  for (const JudgedReading& judged : readings_) {
    if (judged.reading.element == element && judged.says != ReadingSays::where_it_should_not) {
      read.read.push_back({judged.reading.range, judged.reading.gauge_Pa});
      least = std::min(least, judged.reading.gauge_Pa / judged.line_Pa);
    }
  }
  if (!read.read.empty()) {
    // Elsewhere its own line, or as large a share lost as where it was read.
    leaks.push_back(read);
    read.left = least;
    leaks.push_back(std::move(read));
    return leaks;
  }
  for (const double left : rules_.left) {
    leaks.push_back({FaultKind::leaking, element, left, {}});
  }
  return leaks;
}

std::vector<Candidate> Detective::candidates() const {
  std::vector<Candidate> all;
  for (const DriveElement& element : drive_.elements) {
    const auto one = [&](FaultKind kind) { all.push_back({{kind, element.id, 0, {}}}); };
    if (element.kind == ElementKind::one_way_clutch) {
      one(FaultKind::fallen_out);
      one(FaultKind::reversed);
    } else {
      one(FaultKind::not_applied);
      Candidate worn;
      for (const double left : rules_.left) {
        worn.push_back({FaultKind::worn, element.id, left, {}});
      }
      all.push_back(std::move(worn));
      all.push_back(leaks_of(element.id));
    }
    one(FaultKind::stuck_on);
  }
  return all;
}

void Detective::fit_symptoms(const std::vector<RangeBehaviour>& ranges, Fit& fit) const {
  for (const DriverSymptom& symptom : symptoms_) {
    const auto range = std::ranges::find(ranges, symptom.range, &RangeBehaviour::range);
    const std::string name = name_of_range(drive_, symptom.range);
    if (range->shows(symptom.notice)) {
      fit.explained += symptom.notice == Notice::as_it_should ? 0 : 1;
    } else if (symptom.notice == Notice::as_it_should) {
      if (fit.contradicted.empty()) {
        fit.contradicted = name + " is said to be as it should; with this fault: " + range->words;
      }
    } else if (fit.unexplained.empty()) {
      fit.unexplained = "it does not explain '" + word_for(symptom.notice) + "' in " + name +
                        "; with this fault: " + range->words;
    }
  }
  for (const RangeBehaviour& range : ranges) {
    const bool reported =
        std::ranges::find(symptoms_, range.range, &DriverSymptom::range) != symptoms_.end();
    if (!reported && !range.shows(Notice::as_it_should)) {
      fit.besides.push_back(range.range);
    }
  }
}

void Detective::fit_readings(const std::vector<Fault>& faults, Fit& fit) const {
  const auto has = [&](FaultKind kind, const std::string& element) {
    return std::ranges::any_of(
        faults, [&](const Fault& fault) { return fault.kind == kind && fault.element == element; });
  };
  for (const JudgedReading& judged : readings_) {
    const std::string& element = judged.reading.element;
    const bool loses = has(FaultKind::leaking, element);
    const bool off = has(FaultKind::not_applied, element);
    const std::string reads = name_of_element(drive_, element) + " reads " +
                              pressure_words(judged.reading.gauge_Pa) + " in " +
                              name_of_range(drive_, judged.reading.range);
    const std::string of_line = reads + " of " + pressure_words(judged.line_Pa);
    bool explains = true;
    switch (judged.says) {
    case ReadingSays::full:
      // A leak is only as large as it was read; where it reads full nowhere is it one.
      if (off || (loses && !std::ranges::any_of(readings_, [&](const JudgedReading& other) {
                    return other.reading.element == element && other.says == ReadingSays::low;
                  }))) {
        if (fit.contradicted.empty()) {
          fit.contradicted = of_line + ": its pressure is there";
        }
      }
      continue;
    case ReadingSays::low:
      explains = loses;
      break;
    case ReadingSays::none:
      explains = loses || off;
      break;
    case ReadingSays::where_it_should_not:
      explains = has(FaultKind::stuck_on, element);
      break;
    }
    if (explains) {
      ++fit.explained;
    } else if (fit.unexplained.empty()) {
      fit.unexplained =
          "it does not explain that " + of_line +
          (judged.says == ReadingSays::where_it_should_not ? ", where it should not be applied"
                                                           : "");
    }
  }
}

Fit Detective::fit_of(const std::vector<Fault>& faults,
                      const std::vector<RangeBehaviour>& ranges) const {
  Fit fit;
  fit_readings(faults, fit);
  fit_symptoms(ranges, fit);
  return fit;
}

// A fault that was tried at several levels is excluded at all of them.
std::string Detective::named(const Candidate& candidate, const Fault& fault) const {
  return candidate.size() > 1 && fault.read.empty()
             ? name_of_element(drive_, fault.element) + " " + word_for(fault.kind) +
                   ", however much (" +
                   print_figure(FigureOf::share, fault.left, LengthUnit::millimetre) +
                   " left comes nearest)"
             : words_of(drive_, fault);
}

void Detective::keep(std::vector<Fault> faults, std::vector<RangeBehaviour> ranges, const Fit& fit,
                     Diagnosis& diagnosis) const {
  FaultFound found;
  found.words = words_of(drive_, faults) + ": it explains all that is reported";
  if (!fit.besides.empty()) {
    std::vector<std::string> names;
    for (const std::string& id : fit.besides) {
      const auto range = std::ranges::find(ranges, id, &RangeBehaviour::range);
      names.push_back(name_of_range(drive_, id) + " (" + range->words + ")");
    }
    found.words += "; besides, it would change " + listed(names);
  }
  found.words += ".";
  found.faults = std::move(faults);
  found.ranges = std::move(ranges);
  found.besides = fit.besides;
  diagnosis.found.push_back(std::move(found));
}

void Detective::try_pairs(const std::vector<std::vector<Fault>>& useful, Diagnosis& diagnosis) {
  std::set<std::string> told; // a kind of pair once, with the least that has to be wrong
  for (std::size_t i = 0; i < useful.size(); ++i) {
    for (std::size_t other = i + 1; other < useful.size(); ++other) {
      std::vector<Fault> both{useful[i].front(), useful[other].front()};
      if (both[0].element == both[1].element) {
        continue;
      }
      const std::string kind = both[0].element + '\n' + word_for(both[0].kind) + '\n' +
                               both[1].element + '\n' + word_for(both[1].kind);
      if (told.contains(kind)) {
        continue;
      }
      std::vector<RangeBehaviour> ranges = behaviours_.of(both);
      const Fit fit = fit_of(both, ranges);
      if (fit.fits()) {
        told.insert(kind);
        keep(std::move(both), std::move(ranges), fit, diagnosis);
      }
    }
  }
}

void Detective::rank(Diagnosis& diagnosis) const {
  std::ranges::stable_sort(diagnosis.found, {},
                           [](const FaultFound& found) { return found.besides.size(); });
  for (std::size_t i = 0; i < diagnosis.found.size(); ++i) {
    const bool tied =
        i > 0 && diagnosis.found[i].besides.size() == diagnosis.found[i - 1].besides.size();
    diagnosis.found[i].rank = tied ? diagnosis.found[i - 1].rank : static_cast<int>(i) + 1;
  }
}

bool Detective::open_reading(const JudgedReading& judged) const {
  return judged.says != ReadingSays::full;
}

bool Detective::anything_open() const {
  return std::ranges::any_of(
             symptoms_,
             [](const DriverSymptom& symptom) { return symptom.notice != Notice::as_it_should; }) ||
         std::ranges::any_of(readings_,
                             [&](const JudgedReading& judged) { return open_reading(judged); });
}

Diagnosis Detective::run() {
  Diagnosis diagnosis;
  if (!anything_open()) {
    diagnosis.refused = true;
    diagnosis.words = symptoms_.empty() && readings_.empty()
                          ? "Nothing is reported, so there is nothing to explain."
                          : "All that is reported is as it should be: there is nothing to explain.";
    return diagnosis;
  }
  std::vector<std::vector<Fault>> useful; // for pairs
  for (const Candidate& candidate : candidates()) {
    FaultExcluded excluded;
    int most_explained = -1;
    bool fits = false;
    for (const Fault& fault : candidate) {
      std::vector<RangeBehaviour> ranges = behaviours_.of({fault});
      const Fit fit = fit_of({fault}, ranges);
      if (fit.fits()) {
        keep({fault}, std::move(ranges), fit, diagnosis);
        fits = true;
        break;
      }
      if (fit.contradicted.empty() && fit.explained > 0) {
        useful.push_back({fault});
      }
      // The reason that is told is that of the level that comes nearest.
      const int nearness = fit.explained + (fit.contradicted.empty() ? 1000 : 0);
      if (nearness > most_explained) {
        most_explained = nearness;
        excluded = {fault, named(candidate, fault) + ": " +
                               (fit.contradicted.empty() ? fit.unexplained : fit.contradicted) +
                               "."};
      }
    }
    if (!fits) {
      diagnosis.excluded.push_back(std::move(excluded));
    }
  }
  const bool single = !diagnosis.found.empty();
  if (!single) {
    try_pairs(useful, diagnosis);
  }
  rank(diagnosis);
  const std::size_t count = diagnosis.found.size();
  if (single) {
    diagnosis.words = count == 1 ? "One fault explains all that is reported."
                                 : std::to_string(count) + " single faults explain all that is "
                                                           "reported.";
  } else if (count > 0) {
    diagnosis.words = "No single fault explains all that is reported; " + std::to_string(count) +
                      (count == 1 ? " pair does." : " pairs do.");
  } else {
    diagnosis.words = "No single fault and no pair of them explains all that is reported.";
  }
  return diagnosis;
}

// Two reports that cannot both be.
std::string contradiction(const Drive& drive, const std::vector<DriverSymptom>& symptoms) {
  const auto drives = [](Notice notice) {
    return notice == Notice::slips || notice == Notice::other_ratio ||
           notice == Notice::no_engine_braking || notice == Notice::brakes ||
           notice == Notice::drives_in_neutral;
  };
  for (const DriverSymptom& one : symptoms) {
    for (const DriverSymptom& other : symptoms) {
      if (one.range != other.range || one.notice >= other.notice) {
        continue;
      }
      const bool opposed =
          one.notice == Notice::as_it_should ||
          (one.notice == Notice::no_engine_braking && other.notice == Notice::brakes) ||
          (drives(one.notice) != drives(other.notice)) ||
          (!drives(one.notice) && !drives(other.notice));
      if (opposed) {
        return name_of_range(drive, one.range) + " is reported as '" + word_for(one.notice) +
               "' and as '" + word_for(other.notice) + "': both cannot be.";
      }
    }
  }
  return {};
}

std::string first_trouble(const Drive& drive, const std::vector<DriverSymptom>& symptoms,
                          const std::vector<PressureReading>& readings) {
  const std::vector<std::string> troubles = train_troubles(drive);
  if (!troubles.empty()) {
    return troubles.front();
  }
  for (const DriverSymptom& symptom : symptoms) {
    if (drive.range(symptom.range) == nullptr) {
      return "There is no range '" + symptom.range + "'.";
    }
  }
  for (const PressureReading& reading : readings) {
    const DriveElement* element = drive.element(reading.element);
    if (element == nullptr) {
      return "There is no element '" + reading.element + "'.";
    }
    if (drive.range(reading.range) == nullptr) {
      return "There is no range '" + reading.range + "'.";
    }
    if (element->kind == ElementKind::one_way_clutch) {
      return "'" + reading.element + "' is a one-way clutch: no pressure applies it.";
    }
    if (!(reading.gauge_Pa >= 0) || !std::isfinite(reading.gauge_Pa)) {
      return "The pressure at '" + reading.element + "' is below nothing.";
    }
  }
  return contradiction(drive, symptoms);
}

} // namespace

Diagnosis diagnose(const Drive& drive, const ElementPacks& packs,
                   const std::vector<DriverSymptom>& symptoms,
                   const std::vector<PressureReading>& readings, const DiagnosisRules& rules) {
  Diagnosis refused;
  refused.words = first_trouble(drive, symptoms, readings);
  refused.refused = !refused.words.empty();
  if (refused.refused) {
    return refused;
  }
  Detective detective(drive, packs, symptoms, rules);
  std::vector<std::string> notes;
  for (const PressureReading& reading : readings) {
    const std::string note = detective.take(reading);
    if (!note.empty()) {
      notes.push_back(note);
    }
  }
  Diagnosis diagnosis = detective.run();
  notes.emplace_back("A reading counts as full from " +
                     print_figure(FigureOf::share, rules.full_share, LengthUnit::millimetre) +
                     " of the range's line pressure: common practice, no source.");
  notes.emplace_back("Wear and leaks that were not read were tried at several levels: the least "
                     "that explains all is named.");
  notes.emplace_back("How late or how hard a range takes hold is not worked out.");
  diagnosis.notes = std::move(notes);
  return diagnosis;
}

std::vector<std::string> lines_of(const Diagnosis& diagnosis) {
  std::vector<std::string> lines{diagnosis.words};
  for (const FaultFound& found : diagnosis.found) {
    lines.push_back("  " + std::to_string(found.rank) + "  " + found.words);
  }
  if (!diagnosis.excluded.empty()) {
    lines.emplace_back("Excluded:");
  }
  for (const FaultExcluded& excluded : diagnosis.excluded) {
    lines.push_back("     " + excluded.words);
  }
  lines.insert(lines.end(), diagnosis.notes.begin(), diagnosis.notes.end());
  return lines;
}

} // namespace lugline
