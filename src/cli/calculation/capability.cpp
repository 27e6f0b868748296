#include "calc/capability.h"

#include "base/text.h"
#include "calc/summary.h"
#include "cli/calculation/text.h"
#include "cli/calculation/values.h"

namespace peelbook::cli {
namespace {

struct CalcCapabilityGiven {
    std::string file;
    std::optional<double> lower, upper, mean, sd;
    bool json = false;
};

void set_up(Options& options, CalcCapabilityGiven& given) {
    options.word(given.file, "FILE", "one value a line; instead: --mean and --sd", Need::optional);
    add_number(options, given.lower, "--lower", "the lower specification limit");
    add_number(options, given.upper, "--upper", "the upper specification limit");
    add_number(options, given.mean, "--mean", "the mean, when there is no file");
    add_number(options, given.sd, "--sd", "the standard deviation, when there is no file");
    add_json(options, given.json);
}

Result<calc::CapabilityQuestion> question_of(const Context& context, const CalcCapabilityGiven& given) {
    calc::CapabilityQuestion question;
    question.lower = given.lower;
    question.upper = given.upper;
    if (given.file.empty()) {
        if (!given.mean || !given.sd)
            return Refusal{"neither a file nor --mean and --sd",
                           "measured values, or their mean and standard deviation",
                           "name a file with one value a line",
                           {}};
        question.mean = *given.mean;
        question.sd = *given.sd;
        return question;
    }
    if (given.mean || given.sd) return Refusal{"a file with --mean or --sd", "one of the two", "leave --mean and --sd out", {}};
    const auto values = read_values(context, given.file);
    if (!values) return values.refusal();
    const calc::Summary summary = calc::summarise(*values);
    if (!summary.sd)
        return Refusal{"one value in '" + shown(given.file) + "'", "two values or more", "measure more; thirty are a usual least", {}};
    question.mean = summary.mean;
    question.sd = *summary.sd;
    question.n = summary.n;
    return question;
}

std::string limits_text(const std::optional<calc::Interval>& limits) {
    if (!limits) return "";
    return " (95% limits " + number(limits->lower, 4) + " to " + number(limits->upper, 4) + ")";
}

std::string working_text(const calc::CapabilityQuestion& q, const calc::Capability& c) {
    const std::string mean = number(q.mean, 4);
    const std::string sd = number(q.sd, 4);
    std::string text = "mean " + mean + ", standard deviation " + sd;
    if (q.n) text += ", from " + std::to_string(*q.n) + " values";
    text += "\n";
    if (q.upper)
        text += "(upper - mean) / 3 sd = (" + number(*q.upper, 4) + " - " + mean + ") / (3 x " + sd +
                ") = " + number((*q.upper - q.mean) / (3 * q.sd), 4) + "\n";
    if (q.lower)
        text += "(mean - lower) / 3 sd = (" + mean + " - " + number(*q.lower, 4) + ") / (3 x " + sd +
                ") = " + number((q.mean - *q.lower) / (3 * q.sd), 4) + "\n";
    text += "Cpk = " + std::string(q.upper && q.lower ? "the smaller of the two" : "that") + " = " + number(c.cpk, 4) + "\n";
    if (c.cp) text += "Cp = (upper - lower) / 6 sd = " + number(*c.cp, 4) + limits_text(c.cp_limits) + "\n";
    return text;
}

output::Json json_of(const calc::CapabilityQuestion& q, const calc::Capability& c) {
    const auto end = [](const std::optional<calc::Interval>& limits, bool lower) {
        return limits ? output::Json(lower ? limits->lower : limits->upper) : output::Json();
    };
    auto json = output::Json::object();
    json.set("cpk", c.cpk)
        .set("cp", c.cp)
        .set("cpk_lower", end(c.cpk_limits, true))
        .set("cpk_upper", end(c.cpk_limits, false))
        .set("cp_lower", end(c.cp_limits, true))
        .set("cp_upper", end(c.cp_limits, false))
        .set("mean", q.mean)
        .set("sd", q.sd)
        .set("n", q.n)
        .set("lower", q.lower)
        .set("upper", q.upper);
    return json;
}

Result<Exit> act(Context& context, const CalcCapabilityGiven& given) {
    const auto question = question_of(context, given);
    if (!question) return question.refusal();
    const auto capability = calc::capability(*question);
    if (!capability) return capability.refusal();
    CalcAnswer answer;
    answer.answer = "Cpk " + number(capability->cpk, 4) + limits_text(capability->cpk_limits) +
                    (capability->cp ? ", Cp " + number(*capability->cp, 4) : "");
    answer.mind = {"It assumes a stable process with a normal spread: look at `peelbook calc chart` first.",
                   "It is no verdict on a critical limit."};
    answer.working = working_text(*question, *capability);
    answer.source = {"NIST/SEMATECH e-Handbook of Statistical Methods, 7.1.6 (from memory)."};
    answer.json = json_of(*question, *capability);
    print(context, answer, given.json);
    return Exit::done;
}

}  // namespace

extern const Command calc_capability_command;
const Command calc_capability_command{.name = "calc capability",
                                      .group = Group::calculation,
                                      .about = "Cp and Cpk of a process against its limits, with confidence limits.",
                                      .more = {},
                                      .examples =
                                          "peelbook calc capability loaf-weights.csv --lower 790 --upper 830\n"
                                          "peelbook calc capability --mean 97 --sd 1.6 --lower 90 --upper 100",
                                      .takes_at = false,
                                      .body = body<CalcCapabilityGiven, set_up, act>()};

}  // namespace peelbook::cli
