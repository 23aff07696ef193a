// Package mastery reads from a learner's attempts what is learnt, what is
// forgotten, and what to drill next. It keeps nothing and knows no clock: the
// caller makes [Observation] values from the logbook and says what time and
// what local day it is. The same values give the same answer, in any order.
// A long logbook goes one by one into a [Learner], which keeps what was shown
// and not the attempts.
//
// Nothing here certifies. An interval tells what the attempts so far can
// show about drills on a screen; it tells nothing about patients.
//
// # What counts
//
// A finding is an item when it can show that something was known: a credit
// with points, a caution, or a never event. Advice is no item. Attempts with
// help, and a second try at the same patient on one day, are left out of
// everything but two things: a never event counts wherever it happens, and
// help leaves a trace, if a weaker one, in memory.
//
// # What was shown so far
//
// [Competencies] takes each case as one trial of each domain: right when every
// item of the domain was right. With the prior Beta(1/2, 1/2) the posterior is
// Beta(1/2+right, 1/2+wrong); its mean and its equal-tailed 95 % interval are
// told, or "too few to say" while the interval is wide.
//
//	prior Beta(1/2, 1/2), equal tails  Brown, Cai and DasGupta, Statistical Science, 2001, 16:101; agreed for small numbers
//	level 95 %                         common practice, no source
//	widest interval told 1/3           our own choice: tells low, middle and high apart
//	newest 50 cases of a domain        our own choice
//
// Six cases, all right, are the least that is told of a domain that always
// goes well. They give 0.67 to 1: not yet mastery of anything.
//
// # Sure, and right
//
// [Calibrate] sets the stated chance of "safe" against what came. The Brier
// score is split after Murphy into reliability (stated chances that do not
// come true; lower is better), resolution (chances that tell cases apart;
// higher is better) and uncertainty (what the cases themselves leave open).
//
//	the split                     Murphy, Journal of Applied Meteorology, 1973, 12:595; agreed
//	30 answers before a word      common practice, no source
//	newest 200 answers            our own choice
//
// # How hard
//
// [Items] fits the Rasch model: the chance of a right answer is
// 1/(1+exp(difficulty-strength)). Each attempt has a strength of its own, drawn
// from a normal distribution with mean 0. The estimator is marginal maximum
// likelihood by the EM algorithm, with 21 points of Gauss-Hermite quadrature.
// A normal prior on the difficulties draws rarely met items to the mean.
//
//	estimator                     Bock and Aitkin, Psychometrika, 1981, 46:443; agreed
//	prior on difficulties         Mislevy, Psychometrika, 1986, 51:177; its width of 1 logit our own choice
//	standard errors               Louis, Journal of the Royal Statistical Society B, 1982, 44:226; agreed
//	strength's spread of 1 logit  the model's usual scale; common practice, no source
//	30 answers for one logit      common practice, no source
//	newest 2,000 attempts         our own choice
//
// # What is forgotten
//
// [FSRS6] is the open algorithm FSRS, version 6, with its published default
// weights (Open Spaced Repetition project, scheduler 6.3.1, 2025), in its form
// without steps within a day. What is remembered is a domain in a family. A
// day is one review, graded by the worst of the day: failed, with help, passed,
// or passed and sure. It is due when the chance of recall has fallen to 0.9.
// The model was fitted to words and not to procedures, so it says when to look
// again and no more. How long the gaps grow matters little; that there are gaps
// matters much (Educational Psychology Review, 2021, 33:959).
//
//	weights, aimed recall 0.9     FSRS-6 defaults; one source, fitted to verbal recall
//	sure from 0.8                 Proceedings of the Physiological Society, 2006, 3:PC64; one source
//	grades from what was shown    common practice, no source
//	at most 30 days before two unaided passes, 365 days after    common practice, no source
//
// # Never events
//
// [Comebacks] lists the rules whose never event must return, in another
// patient with the same family, until they were got right on three separate
// local days, none of them the day of the event, and each time in a patient
// not met with that rule before. A further never event starts the count again.
// Three days, and other patients, are this program's own rule.
//
// # Today
//
// [Today] lists what to drill. Comebacks come first and take half of the list
// at most; then what is due, what is weak and what is new take turns, and the
// first turn moves on from day to day. Weak is the domain of which least was
// shown, by the lower end of its interval. Ties fall by a seed. No two
// neighbours share a family: mixing what looks alike teaches to tell it apart
// (Psychological Bulletin, a meta-analysis of interleaved learning, 2019, 145,
// doi 10.1037/bul0000209). A case rests for 12 hours and until the next day. A
// [Reason] names a domain and a time, and nothing that would give a patient
// away.
//
// # Least-power sense
//
// [PowerSense] is the dialled watts over the least usual figure, smoothed by
// an exponentially weighted mean of logarithms.
//
//	weight 0.2 of the newest      NIST/SEMATECH, e-Handbook of Statistical Methods, 6.3.2.4; usual range 0.2 to 0.3
package mastery
