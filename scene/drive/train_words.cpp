#include "scene/drive/train_words.h"

namespace lugline {

namespace {

std::vector<std::string> names_doing(const Drive& drive, const TrainAnswer& answer,
                                     ElementDoing doing) {
  std::vector<std::string> names;
  for (const ElementWork& work : answer.elements) {
    if (work.doing == doing) {
      names.push_back(name_of_element(drive, work.id));
    }
  }
  return names;
}

std::string verb(const std::vector<std::string>& names, const char* one, const char* many) {
  return listed(names) + (names.size() == 1 ? one : many);
}

std::string driving_words(const Drive& drive, const TrainAnswer& answer) {
  const bool pull = answer.duty == TrainDuty::pull;
  std::string words = pull ? "It drives at " : "The engine brakes at ";
  words += text_of(*answer.ratio);
  if (pull) {
    const MemberTurn* output = answer.member(drive.output);
    words += ", the output turning " + turning_word(drive, output->speed->value);
  }
  const std::vector<std::string> holding = names_doing(drive, answer, ElementDoing::holds);
  if (!holding.empty()) {
    words += "; " + verb(holding, " holds", " hold");
  }
  const std::vector<std::string> overrunning = names_doing(drive, answer, ElementDoing::overruns);
  if (!overrunning.empty()) {
    words += "; " + verb(overrunning, " overruns", " overrun");
  }
  return words + ".";
}

std::string neutral_words(const Drive& drive, const TrainAnswer& answer) {
  if (answer.duty == TrainDuty::pull) {
    return answer.output_held ? "Neutral, with the output held: the input turns freely."
                              : "Neutral: the input turns and nothing drives the output.";
  }
  const std::vector<std::string> overrunning = names_doing(drive, answer, ElementDoing::overruns);
  std::string words = "No engine braking: the output turns and nothing drives the input";
  if (!overrunning.empty()) {
    words += "; " + verb(overrunning, " overruns", " overrun");
  }
  return words + ".";
}

std::string locked_words(const Drive& drive, const TrainAnswer& answer) {
  const std::string end = answer.duty == TrainDuty::pull ? "input" : "output";
  std::vector<std::string> names;
  for (const std::string& id : answer.blamed) {
    names.push_back(name_of_element(drive, id));
  }
  if (answer.state == TrainState::locked) {
    return "Locked: the " + end + " cannot turn" +
           (names.empty() ? "." : "; without " + listed(names) + " it would drive.");
  }
  return "Tied up: the " + end + " cannot turn. " + listed(names) +
         " ask for different ratios; without any one of them it would drive.";
}

} // namespace

std::string words_of(const Drive& drive, const TrainAnswer& answer) {
  switch (answer.state) {
  case TrainState::drives:
    return driving_words(drive, answer);
  case TrainState::neutral:
    return neutral_words(drive, answer);
  case TrainState::locked:
  case TrainState::fighting:
    return locked_words(drive, answer);
  case TrainState::refused:
    break;
  }
  return answer.words;
}

std::string listed(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    text += i == 0 ? "" : i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

std::string name_of_element(const Drive& drive, const std::string& id) {
  const DriveElement* element = drive.element(id);
  return element == nullptr || element->name.empty() ? id : element->name;
}

std::string name_of_member(const Drive& drive, const std::string& id) {
  const DriveMember* member = drive.member(id);
  return member == nullptr || member->name.empty() ? id : member->name;
}

std::string text_of(const ExactFigure& figure) {
  const std::string decimal = print_figure(FigureOf::ratio, figure.value, LengthUnit::millimetre);
  constexpr std::size_t readable = 12;
  if (figure.fraction.find('/') == std::string::npos) {
    return figure.fraction;
  }
  return figure.fraction.size() > readable ? decimal : figure.fraction + " (" + decimal + ")";
}

std::string word_for(TrainState state) {
  switch (state) {
  case TrainState::drives:
    return "drives";
  case TrainState::neutral:
    return "neutral";
  case TrainState::locked:
    return "locked";
  case TrainState::fighting:
    return "tied up";
  case TrainState::refused:
    return "not worked out";
  }
  return {};
}

std::string word_for(ElementDoing doing) {
  switch (doing) {
  case ElementDoing::off:
    return "off";
  case ElementDoing::on:
    return "on";
  case ElementDoing::holds:
    return "holds";
  case ElementDoing::overruns:
    return "overruns";
  case ElementDoing::stands:
    return "stands";
  case ElementDoing::free:
    return "free";
  }
  return {};
}

std::string turning_word(const Drive& drive, double in_engines_sense) {
  if (in_engines_sense == 0) {
    return "still";
  }
  return (in_engines_sense > 0) == drive.engine_clockwise ? "clockwise" : "counter-clockwise";
}

} // namespace lugline
