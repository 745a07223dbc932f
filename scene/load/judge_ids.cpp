#include "scene/load/judge.h"

#include <algorithm>

namespace lugline {

namespace {

/// Complains of each id that was there before.
class Once {
public:
  explicit Once(Findings& findings) : findings_(findings) {}

  void take(const std::string& id, const SourcePlace& at, const std::string& what) {
    const auto [first, is_new] = first_.try_emplace(id, at);
    if (!is_new && !id.empty()) {
      findings_.complain(at, what + ": the id " + in_quotes(id) + " is there already, on line " +
                                 std::to_string(first->second.line));
    }
  }

private:
  Findings& findings_;
  std::map<std::string, SourcePlace> first_;
};

template <class T>
void judge_doubles(const std::vector<T>& all, Findings& findings) {
  Once once(findings);
  for (const T& drafted : all) {
    once.take(drafted.value.id, drafted.at.of("id"), drafted.what);
  }
}

void judge_double_components(const UnitDraft& unit, Findings& findings) {
  Once once(findings);
  for (const ComponentLine& line : unit.lines) {
    const SourcePlace& at = line.at.of("id");
    if (line.count > 1) {
      once.take(line.id, at, line.what());
    }
    for (const std::string& id : line.piece_ids()) {
      once.take(id, at, line.what());
    }
  }
}

/// Labels stand alone on drawings and in sentences, so two alike cannot be told apart.
void ask_for_labels(const UnitDraft& unit, Findings& findings) {
  std::map<std::string, std::string> first;
  for (const ComponentLine& line : unit.lines) {
    const auto [other, is_new] = first.try_emplace(line.label, line.id);
    if (!is_new && !line.label.empty()) {
      findings.ask(line.at.of("label"), line.what() + ": its label, " + in_quotes(line.label) +
                                            ", is the label of " + in_quotes(other->second) +
                                            " as well");
    }
  }
}

class Resolver {
public:
  Resolver(const SequenceDraft* sequence, const Known* known, Findings& findings)
      : known_(known), findings_(findings) {
    if (sequence == nullptr) {
      return;
    }
    has_sequence_ = true;
    for (const Drafted<Place>& place : sequence->places) {
      places_.push_back(place.value.id);
    }
    for (const Drafted<Step>& step : sequence->steps) {
      steps_.push_back(step.value.id);
    }
  }

  void judge(const Reference& reference) {
    switch (reference.names) {
    case Names::component:
      component(reference, reference.written);
      break;
    case Names::groove:
    case Names::key:
      feature(reference);
      break;
    case Names::place:
      one_of(reference, places_, "place");
      break;
    case Names::step:
      one_of(reference, steps_, "step");
      break;
    }
  }

private:
  bool component(const Reference& reference, const std::string& id) {
    if (known_ == nullptr || known_->has(id)) {
      return known_ != nullptr;
    }
    const std::vector<std::string> pieces = known_->pieces_of_line(id);
    const std::string message = reference.said_by + " names " + in_quotes(id);
    if (!pieces.empty()) {
      findings_.complain(reference.at,
                         message + ", which is " + std::to_string(pieces.size()) +
                             " pieces: which one?",
                         listed(pieces));
    } else {
      findings_.complain(reference.at, message + ", and there is no such component",
                         findings_.nearest(id, known_->ids()));
    }
    return false;
  }

  void feature(const Reference& reference) {
    const bool groove = reference.names == Names::groove;
    const std::string word = groove ? "groove" : "key";
    const std::size_t slash = reference.written.find('/');
    if (slash == std::string::npos) {
      findings_.complain(reference.at,
                         reference.said_by + " is " + in_quotes(reference.written) +
                             ", and a part with its " + word + " was expected",
                         groove ? "\"COMPONENT/GROOVE\"" : "\"COMPONENT/KEY\"");
      return;
    }
    const std::string id = reference.written.substr(0, slash);
    if (!component(reference, id)) {
      return;
    }
    const UnitComponent* host = known_->made(id);
    if (host == nullptr) {
      return; // its line was refused
    }
    std::vector<std::string> names;
    if (groove) {
      std::ranges::transform(host->part.grooves, std::back_inserter(names), &Groove::id);
    } else {
      std::ranges::transform(host->part.keys, std::back_inserter(names), &Key::id);
    }
    const std::string name = reference.written.substr(slash + 1);
    if (std::ranges::find(names, name) != names.end()) {
      return;
    }
    std::string hint = findings_.nearest(name, names);
    if (hint.empty()) {
      hint = names.empty() ? id + " has none" : id + " has " + listed(names);
    }
    findings_.complain(reference.at,
                       reference.said_by + " names " + in_quotes(name) + ", and " + id +
                           " has no such " + word,
                       hint);
  }

  void one_of(const Reference& reference, const std::vector<std::string>& ids,
              const std::string& word) {
    if (!has_sequence_ || std::ranges::find(ids, reference.written) != ids.end()) {
      return;
    }
    std::string hint = findings_.nearest(reference.written, ids);
    if (hint.empty() && !ids.empty()) {
      hint = "known: " + listed(ids);
    }
    findings_.complain(reference.at,
                       reference.said_by + " names " + in_quotes(reference.written) +
                           ", and there is no such " + word,
                       hint);
  }

  const Known* known_;
  Findings& findings_;
  bool has_sequence_ = false;
  std::vector<std::string> places_;
  std::vector<std::string> steps_;
};

} // namespace

Known::Known(const UnitDraft& unit, const std::vector<UnitComponent>& components) {
  for (const ComponentLine& line : unit.lines) {
    std::vector<std::string> ids = line.piece_ids();
    for (const std::string& id : ids) {
      if (pieces_.try_emplace(id, nullptr).second) {
        ids_.push_back(id);
      }
    }
    if (line.count > 1) {
      lines_[line.id] = std::move(ids);
    }
  }
  for (const UnitComponent& component : components) {
    pieces_[component.id] = &component;
  }
}

const UnitComponent* Known::made(const std::string& id) const {
  const auto found = pieces_.find(id);
  return found == pieces_.end() ? nullptr : found->second;
}

std::vector<std::string> Known::pieces_of_line(const std::string& id) const {
  const auto found = lines_.find(id);
  return found == lines_.end() ? std::vector<std::string>() : found->second;
}

void judge_ids(const UnitDraft* unit, const SequenceDraft* sequence, const Known* known,
               Findings& findings) {
  Resolver resolver(sequence, known, findings);
  if (unit != nullptr) {
    judge_double_components(*unit, findings);
    ask_for_labels(*unit, findings);
    judge_doubles(unit->packs, findings);
    judge_doubles(unit->plays, findings);
    judge_doubles(unit->chains, findings);
    std::ranges::for_each(unit->references, [&](const Reference& r) { resolver.judge(r); });
  }
  if (sequence != nullptr) {
    judge_doubles(sequence->places, findings);
    judge_doubles(sequence->steps, findings);
    std::ranges::for_each(sequence->references, [&](const Reference& r) { resolver.judge(r); });
  }
}

} // namespace lugline
