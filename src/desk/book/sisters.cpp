#include "desk/book/sisters.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "base/number_text.hpp"
#include "desk/book.hpp"
#include "desk/book/between.hpp"
#include "desk/book/saw_tree.hpp"
#include "desk/labels.hpp"
#include "desk/nearest.hpp"
#include "desk/shown.hpp"
#include "study/figures.hpp"
#include "study/study.hpp"

namespace portwright::desk {
namespace {

std::vector<std::string> models_of(const std::vector<book::Document>& saws) {
  std::vector<std::string> out;
  for (const book::Document& saw : saws)
    if (std::string model = text_at(body_of(saw), "model"); !model.empty()) out.push_back(std::move(model));
  return out;
}

// Figures of one saw that tell of its metal: not what turns with the speed, nor what it did on the bench.
std::vector<study::Figure> geometry_figures(const saw::Readings& readings, base::UnitStyle style) {
  const geometry::Survey survey = geometry::survey(readings);
  study::Options options;
  options.style = style;
  study::Study all = study::study(survey, {}, nullptr, options);
  fill_labels(all.figures, labels_of(survey, all.speed));
  const std::vector<study::Entry> entries = study::entries(survey);
  std::erase_if(all.figures, [&](const study::Figure& figure) {
    const auto entry = std::find_if(entries.begin(), entries.end(), [&](const auto& e) { return e.id == figure.id; });
    if (entry == entries.end() || entry->row->turns) return true;
    for (const char* other : {"readings.", "drive.", "ignition.", "heat.", "bottom_end."})
      if (figure.id.starts_with(other)) return true;
    return false;
  });
  return std::move(all.figures);
}

// A reading that was borrowed tells nothing of the saw it stands with.
bool has_borrowed(const book::Tree& tree) {
  return std::any_of(tree.parts.begin(), tree.parts.end(), [](const book::Part& part) {
    return part.tree.kind == book::Tree::Kind::branch &&
           (book::find(part.tree, "borrowed_from") != nullptr || has_borrowed(part.tree));
  });
}

struct Held {
  book::Document saw;
  std::vector<study::Figure> figures;

  [[nodiscard]] const study::Figure* find(const std::string& id) const {
    const auto found = std::find_if(figures.begin(), figures.end(), [&](const auto& f) { return f.id == id; });
    return found == figures.end() || !found->value ? nullptr : &*found;
  }
};

std::string ordinary(std::string label) {
  const bool capitals = label.size() > 1 && std::isupper(static_cast<unsigned char>(label[1])) != 0;
  if (!label.empty() && !capitals) label[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(label[0])));
  return label;
}

// "1.5 deg earlier than the two others"
std::string direction(const std::string& id, bool less) {
  const std::string last = id.substr(id.rfind('.') + 1);
  if (last == "duration") return less ? "shorter" : "longer";
  if (last != "opens" && last != "closes" && last != "first_opens") return less ? "less" : "more";
  return less ? "earlier" : "later";
}

std::string the_others(const std::vector<Held>& saws, std::size_t which, std::size_t with_value) {
  if (with_value == 2)
    for (std::size_t i = 0; i < saws.size(); ++i)
      if (i != which) return saws[i].saw.title;
  constexpr std::array words{"two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"};
  const std::size_t others = with_value - 1;
  return "the " + (others - 2 < words.size() ? std::string(words[others - 2]) : std::to_string(others)) + " others";
}

// Angles of floors count before TDC: greater is earlier.
bool counts_before_tdc(const std::string& id, const std::string& kind) {
  const std::string last = id.substr(id.rfind('.') + 1);
  const bool of_floor =
      kind == "intake" || kind == "air" || id.starts_with("group.intake") || id.starts_with("group.air");
  return of_floor && (last == "opens" || last == "first_opens");
}

// One figure over all saws.
class Row {
 public:
  Row(const std::vector<Held>& saws, const study::Figure& like, std::string kind, base::UnitStyle style)
      : saws_(saws), like_(like), kind_(std::move(kind)), style_(style) {}

  wire::SisterFigure made(wire::BookSistersAnswer& answer) {
    wire::SisterFigure out{like_.id, like_.label, like_.unit, {}, {}, {}, {}, {}};
    for (std::size_t i = 0; i < saws_.size(); ++i) out.saws.push_back(value(i));
    if (measured_.size() < 2) return out;
    const Between all = between(measured_);
    const double half = sigmas_of_95 * all.mean_sigma;
    out.mean = all.mean;
    out.spread = all.spread;
    out.mean_text = text({all.mean, all.mean - half, all.mean + half});
    out.spread_text = all.spread > 0.0 ? text({all.spread, all.spread * 0.5, all.spread * 1.5}) : "";
    for (std::size_t i = 0; i < places_.size(); ++i) hold_apart(out.saws[places_[i]], i);
    const std::size_t compared = places_.size() == 2 ? 1 : places_.size();
    answer.compared += static_cast<int>(compared);
    for (std::size_t i = 0; i < compared; ++i) answer.real += out.saws[places_[i]].real ? 1 : 0;
    return out;
  }

 private:
  [[nodiscard]] std::string text(const base::Spread& spread) const {
    return base::value_text(spread, like_.unit, style_);
  }

  wire::SisterValue value(std::size_t which) {
    wire::SisterValue out;
    out.saw = saws_[which].saw.id;
    const study::Figure* figure = saws_[which].find(like_.id);
    if (figure == nullptr) return out;
    out.value = figure->value;
    out.low = figure->low;
    out.high = figure->high;
    out.text = figure->text;
    out.range = base::range_text({*figure->value, figure->low, figure->high}, like_.unit, style_);
    if (!figure->low || !figure->high) return out;
    places_.push_back(which);
    measured_.push_back({*figure->value, (*figure->high - *figure->low) / (2.0 * sigmas_of_95)});
    return out;
  }

  void hold_apart(wire::SisterValue& saw, std::size_t which) {
    const Measured off = apart(measured_, which);
    const double half = sigmas_of_95 * off.sigma;
    saw.apart = off.value;
    saw.apart_low = off.value - half;
    saw.apart_high = off.value + half;
    saw.real = *saw.apart_low > 0.0 || *saw.apart_high < 0.0;
    if (!saw.real) return;
    const bool less = off.value < 0.0;
    const base::Spread size{std::abs(off.value), std::abs(off.value) - half, std::abs(off.value) + half};
    saw.sentence = saws_[places_[which]].saw.title + ": " + ordinary(like_.label) + ' ' + text(size) + ' ' +
                   direction(like_.id, less != counts_before_tdc(like_.id, kind_)) + " than " +
                   the_others(saws_, places_[which], measured_.size()) + " (" +
                   base::range_text(size, like_.unit, style_) + "); the range says it is real.";
  }

  const std::vector<Held>& saws_;
  const study::Figure& like_;
  std::string kind_;
  base::UnitStyle style_;
  std::vector<Measured> measured_;
  std::vector<std::size_t> places_;  // saws that have the figure with a range
};

std::string kind_of(const saw::Readings& readings, const std::string& id) {
  for (const saw::Port& port : readings.ports)
    if (id.starts_with("port." + port.name + '.')) return port.kind;
  return {};
}

void hold(wire::BookSistersAnswer& answer, const std::vector<Held>& held, const saw::Readings& first,
          base::UnitStyle style) {
  for (std::size_t s = 0; s < held.size(); ++s)
    for (const study::Figure& figure : held[s].figures) {
      const auto known = [&](const wire::SisterFigure& row) { return row.id == figure.id; };
      if (!figure.value || std::any_of(answer.figures.begin(), answer.figures.end(), known)) continue;
      answer.figures.push_back(Row(held, figure, kind_of(first, figure.id), style).made(answer));
    }
  const double chance = 0.05 * answer.compared;
  answer.by_chance = "Of " + std::to_string(answer.compared) + " differences " + std::to_string(answer.real) +
                     " stand apart; about " + base::number_text(chance, chance < 10.0 ? 1 : 0) +
                     " would by chance alone, in groups, as figures share readings.";
}

}  // namespace

base::Result<Sisters> sisters_of(Shelf& shelf, const std::string& asked) {
  auto saws = all_saws(shelf);
  if (!saws) return tl::unexpected(saws.error());
  const std::vector<std::string> models = models_of(*saws);
  std::string model = asked;
  const auto is_model = [&](const std::string& one) { return folded(one) == folded(model); };
  if (std::none_of(models.begin(), models.end(), is_model)) {
    const auto one = find_saw(shelf, asked);
    if (!one || text_at(body_of(one->saw), "model").empty()) {
      std::string hint = did_you_mean(asked, models);
      if (hint.empty()) hint = "portwright book list shows the models.";
      return base::fail(base::ErrorCode::not_found, "No saw in the book has the model \u201C" + asked + "\u201D.", {},
                        hint);
    }
    model = text_at(body_of(one->saw), "model");
  }
  Sisters out;
  for (book::Document& saw : *saws) {
    const std::string own = text_at(body_of(saw), "model");
    if (folded(own) != folded(model)) continue;
    if (out.model.empty()) out.model = own;
    auto readings = newest_readings(shelf, saw.id);
    if (!readings) return tl::unexpected(readings.error());
    out.saws.push_back({std::move(saw), std::move(*readings)});
  }
  return out;
}

base::ResultAll<wire::BookSistersAnswer> book_sisters(const BookSistersRequest& request) {
  auto shelf = open_shelf(request.book, Reach::read);
  if (!shelf) return only_error(shelf);
  auto sisters = sisters_of(*shelf, request.model);
  if (!sisters) return only_error(sisters);
  wire::BookSistersAnswer answer;
  answer.head = shelf->head();
  answer.model = sisters->model;
  std::vector<Held> held;
  saw::Readings first;
  for (ShelfSaw& one : sisters->saws) {
    if (one.readings && has_borrowed(body_of(*one.readings))) {
      answer.head.notices.push_back(one.saw.title + " is left out: it has readings that are borrowed from a sister.");
      continue;
    }
    const auto read = read_tree(whole_tree(one));
    if (!read) {
      answer.head.notices.push_back(one.saw.title + " is left out: " + read.error().front().message);
      continue;
    }
    auto line = saw_line(*shelf, one);
    if (!line) return only_error(line);
    if (held.empty()) first = read->readings;
    held.push_back({one.saw, geometry_figures(read->readings, request.style)});
    answer.saws.push_back(std::move(*line));
  }
  if (held.size() < 2)
    return tl::unexpected(base::Errors{{base::ErrorCode::not_found,
                                        "Only one saw in the book has the model \u201C" + answer.model + "\u201D.",
                                        "",
                                        "Sisters are two saws or more; portwright book borrow starts one from it.",
                                        {}}});
  hold(answer, held, first, request.style);
  return answer;
}

}  // namespace portwright::desk
