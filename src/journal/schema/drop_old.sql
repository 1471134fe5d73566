DROP TABLE lifted; DROP TABLE clearances; DROP TABLE suitability; DROP TABLE balance_tests; DROP TABLE corrections;
DROP TABLE seen; DROP TABLE tryouts; DROP TABLE given_steps; DROP TABLE decision_reasons; DROP TABLE decisions;
DROP TABLE readiness; DROP TABLE courses; DROP TABLE routines; DROP TABLE advice; DROP TABLE left_out; DROP TABLE mishaps;
DROP TABLE responses; DROP TABLE disturbances; DROP TABLE changes; DROP TABLE answers; DROP TABLE deliveries;
DROP TABLE cues; DROP TABLE plans; DROP TABLE set_ends; DROP TABLE sets; DROP TABLE session_ends; DROP TABLE sessions;
