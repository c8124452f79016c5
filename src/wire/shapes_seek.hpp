#pragma once
// The part of the table of shapes that speaks of wishes about the engine; see wire/shapes.hpp, which it goes on from.

#include "wire/seek_answer.hpp"
#include "wire/shapes.hpp"

namespace portwright::wire {

template <class V>
void shape(V& v, Of<SeekGain> auto& s) {
  v.is("SeekGain", "A change from stock, over stock's own.");
  v.field("percent", s.percent, "mean of the sets of assumptions; before they are run, under the middle ones");
  v.maybe("low", s.low, "within which one more set would lie 19 times of 20, in per cent");
  v.maybe("high", s.high, "upper end of it");
  v.field("told_apart", s.told_apart, "whether the range leaves out no change at all");
  v.field("text", s.text, "the change for a person; \"not told apart\" where the range holds no change");
  v.field("range_text", s.range_text, "the range for a person; empty where none was run");
}

template <class V>
void shape(V& v, Of<SeekKnob> auto& s) {
  v.is("SeekKnob", "A cut that is free.");
  v.field("name", s.name, "as free takes it");
  v.field("label", s.label, "in words");
  v.field("most_text", s.most_text, "how far it may go");
}

template <class V>
void shape(V& v, Of<SeekAlone> auto& s) {
  v.is("SeekAlone", "What one cut brings by itself, as far as it goes; changes from stock in per cent.");
  v.field("name", s.name, "as free takes it");
  v.field("label", s.label, "in words");
  v.field("amount_text", s.amount_text, "how far that is");
  v.field("aim", s.aim, "change of what is wished");
  v.field("pull", s.pull, "of the mean torque at 65 and 80 % of the speed of most power");
  v.field("power", s.power, "of the greatest power");
  v.field("heat", s.heat, "of the heat into the cylinder's wall at the speed of most power");
}

template <class V>
void shape(V& v, Of<SeekTried> auto& s) {
  v.is("SeekTried", "One list of cuts that was turned; changes from stock in per cent under the middle assumptions.");
  v.field("aim", s.aim, "change of what is wished");
  v.field("pull", s.pull, "of pull");
  v.field("power", s.power, "of the greatest power");
  v.field("heat", s.heat, "of the heat into the cylinder's wall");
  v.field("holds", s.holds, "whether all that must hold is held");
}

template <class V>
void shape(V& v, Of<SeekCut> auto& s) {
  v.is("SeekCut", "One cut of an answer.");
  v.field("name", s.name, "as free takes it");
  v.field("label", s.label, "in words");
  v.field("amount_text", s.amount_text, "how much, rounded");
  v.field("at_end", s.at_end, "whether it stands as far as it may go: more was not tried");
}

template <class V>
void shape(V& v, Of<SeekTorque> auto& s) {
  v.is("SeekTorque", "Torque at one speed.");
  v.field("rpm", s.rpm, "speed");
  v.field("percent", s.percent, "change from stock under the middle assumptions");
}

template <class V>
void shape(V& v, Of<SeekWay> auto& s) {
  v.is("SeekWay", "One answer: cuts, and what they change.");
  v.field("why", s.why, "what it is the best of");
  v.field("cuts", s.cuts, "as the option --cuts takes them, rounded");
  v.field("steps", s.steps, "the same, one by one");
  v.field("aim", s.aim, "change of what is wished");
  v.field("pull", s.pull, "change of the mean torque at 65 and 80 % of the speed of most power");
  v.field("power", s.power, "change of the greatest power");
  v.field("heat", s.heat, "change of the heat into the cylinder's wall at the speed of most power; plus is more heat");
  v.field("torque", s.torque, "change of torque at the speeds that were turned");
  v.field("knock", s.knock, "greatest knock integral of those speeds under the middle assumptions; 1 is knock");
  v.field("metal_text", s.metal_text, "what is taken off");
  v.field("worse", s.worse, "findings that the cuts bring or make worse");
}

template <class V>
void shape(V& v, Of<SeekAnswer> auto& s) {
  v.is("seek", "Cut lists for a wish about the engine; while searching, what is known so far.");
  head(v, "portwright seek 1", s.head);
  v.field("wish", s.wish, "as typed");
  v.field("aim_text", s.aim_text, "what is wanted most");
  v.field("free", s.free, "cuts that may be made");
  v.field("rated_rpm", s.rated_rpm, "stock's speed of most power in the simulation");
  v.field("bar_text", s.bar_text, "at what speed stock pulls the bar that is spoken of; empty: none is");
  v.field("doing", s.doing, "what is being done");
  v.field("share", s.share, "of the work that is done, 0 to 1");
  v.field("tried_count", s.tried_count, "lists of cuts that were turned");
  v.field("tried", s.tried, "all of them, in their order");
  v.maybe("best", s.best, "the best so far that holds");
  v.field("best_cuts", s.best_cuts, "its cuts, not rounded yet");
  v.field("alone", s.alone, "what each cut brings by itself");
  v.field("answers", s.answers, "to choose from, best first; empty while searching");
  v.field("sentence", s.sentence, "what came of it, or that nothing can be told from stock");
  v.field("done", s.done, "whether this is the last of it");
  v.field("stopped", s.stopped, "whether it was stopped early");
  v.field("out_of_time", s.out_of_time, "whether time ended the search");
  v.field("memory", s.memory, "what was tried, to be handed back where the search is to go on");
  v.field("kept", s.kept, "what is held without a wish");
  v.field("against", s.against, "what spoke against lists that were tried");
  v.field("warnings", s.warnings, "what to know of the answers");
  v.field("cautions", s.cautions, "usual cautions");
  v.field("promise", s.promise, "how far the simulation may be believed");
}

}  // namespace portwright::wire
